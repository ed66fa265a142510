import {
  asCircle,
  deriveFrame,
  type Feature,
  type Frame,
  featureContour,
  type Plate,
  type Seat,
  type Vector,
} from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { tealParameters } from "./teal.js";

const sizes = ["75", "90", "110", "125", "160"];

function toVehicle(seat: Seat, x: number, y: number): Vector {
  return [0, 1, 2].map(
    (axis) => (seat.origin[axis] ?? 0) + x * (seat.u[axis] ?? 0) + y * (seat.v[axis] ?? 0),
  ) as unknown as Vector;
}

function holeCentre(plate: Plate, feature: Feature): { x: number; y: number } {
  const found = asCircle(featureContour(plate, feature));
  if (found === undefined) throw new Error(`${plate.id}: ${feature.name} is not round`);
  return found.center;
}

function plate(frame: Frame, id: string): Plate {
  const found = frame.plates.find((candidate) => candidate.id === id);
  if (found === undefined) throw new Error(`no plate ${id}`);
  return found;
}

describe.each(sizes)("placed in space, pipe %s", (size) => {
  const frame = deriveFrame(tealParameters(size));
  const rods = frame.axes.filter((part) => part.kind === "rod");

  it("has every rod pass the middle of a rod hole in both cheeks", () => {
    const cheek = plate(frame, "cheek");
    const holes = cheek.features.filter((feature) => feature.kind === "rod-hole");
    expect(holes).toHaveLength(rods.length);
    for (const seat of cheek.seats) {
      for (const rod of rods) {
        const off = holes.map((hole) => {
          const centre = holeCentre(cheek, hole);
          const [x, , z] = toVehicle(seat, centre.x, centre.y);
          return Math.hypot(x - rod.from[0], z - rod.from[2]);
        });
        expect(Math.min(...off)).toBeLessThan(1e-9);
      }
    }
  });

  it("has every rod run between the two plates of each surge carrier without touching them or the spacers", () => {
    const front = plate(frame, "carrier-front");
    const back = plate(frame, "carrier-back");
    const surge = front.seats.filter((seat) => seat.u[2] === 1);
    expect(surge).toHaveLength(2);
    for (const seat of surge) {
      const behind = back.seats.find((other) => other.origin[1] === seat.origin[1] && other.u[2] === 1);
      if (behind === undefined) throw new Error("a front plate without its back plate");
      for (const rod of rods) {
        const radius = rod.diameter / 2;
        expect(seat.origin[0] - (rod.from[0] + radius)).toBeGreaterThan(0);
        expect(rod.from[0] - radius - (behind.origin[0] + back.sheet.thickness)).toBeGreaterThan(0);
      }
      const pins = front.features.filter((feature) => feature.name === "spacer screw hole");
      expect(pins).toHaveLength(4);
      for (const pin of pins) {
        const centre = holeCentre(front, pin);
        const [, , z] = toVehicle(seat, centre.x, centre.y);
        const nearest = Math.min(...rods.map((rod) => Math.abs(z - rod.from[2])));
        // Rod radius 3 + spacer radius 4 + 0.25 play.
        expect(nearest).toBeCloseTo(7.25, 6);
      }
    }
  });

  it("has the screw holes of the heave carrier over those of the deck", () => {
    const deck = plate(frame, "deck");
    const deckHoles = deck.features
      .filter((feature) => feature.name === "carrier screw hole")
      .map((hole) => holeCentre(deck, hole))
      .map((centre) => toVehicle(deck.seats[0] as Seat, centre.x, centre.y));
    for (const id of ["carrier-front", "carrier-back"]) {
      const carrier = plate(frame, id);
      const seat = carrier.seats.find((candidate) => candidate.u[0] === 1) as Seat;
      const pins = carrier.features.filter((feature) => feature.name === "spacer screw hole");
      for (const pin of pins) {
        const centre = holeCentre(carrier, pin);
        const [x, y] = toVehicle(seat, centre.x, centre.y);
        const off = deckHoles.map((hole) => Math.hypot(hole[0] - x, hole[1] - y));
        expect(Math.min(...off)).toBeLessThan(1e-9);
      }
    }
  });

  it("keeps every carrier inside the smallest bore and every pipe between the cheeks", () => {
    const inner = frame.dimensions.find((one) => one.name === "cheeks.innerWidth")?.value ?? 0;
    for (const pipe of frame.axes.filter((part) => part.kind === "pipe")) {
      expect(Math.abs(pipe.from[1]) + pipe.diameter / 2).toBeLessThan(inner / 2);
    }
  });
});
