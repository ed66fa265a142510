import { regionBounds } from "../../contour/bounds.js";
import type { Point } from "../../contour/contour.js";
import { measuredThickness } from "../../plates/measured-thickness.js";
import type { Plate, Seat, Vector } from "../../plates/plate.js";
import { type Material, materialOf } from "./material-along-line.js";
import { along, cross, dot, minus } from "./vector-3d.js";

/** One copy of a plate where it sits in the vehicle. Vehicle axes, mm. */
export interface PlacedPlate {
  readonly plate: Plate;
  readonly material: Material;
  readonly seat: Seat;
  /** Unit normal; material fills 0..thickness along it from the seat's origin. */
  readonly normal: Vector;
  readonly min: Vector;
  readonly max: Vector;
}

/** Every cut plate of a frame, once for each copy. Printed templates are no solids. */
export function placedPlates(plates: readonly Plate[]): readonly PlacedPlate[] {
  return plates
    .filter((plate) => plate.made === "cut")
    .flatMap((plate) => {
      const material = materialOf(plate.region);
      return plate.seats.map((seat) => place(plate, material, seat));
    });
}

function place(plate: Plate, material: Material, seat: Seat): PlacedPlate {
  const normal = cross(seat.u, seat.v);
  const box = regionBounds(plate.region);
  const corners = [0, measuredThickness(plate.sheet)].flatMap((height) =>
    [box.minX, box.maxX].flatMap((x) =>
      [box.minY, box.maxY].map((y) => inVehicle(seat, normal, { x, y }, height)),
    ),
  );
  return { plate, material, seat, normal, min: extreme(corners, Math.min), max: extreme(corners, Math.max) };
}

function extreme(corners: readonly Vector[], pick: (...values: number[]) => number): Vector {
  return [
    pick(...corners.map((corner) => corner[0])),
    pick(...corners.map((corner) => corner[1])),
    pick(...corners.map((corner) => corner[2])),
  ];
}

/** A point of the plate, `height` above its lower face, in vehicle axes. */
export function inVehicle(seat: Seat, normal: Vector, point: Point, height: number): Vector {
  return along(along(along(seat.origin, seat.u, point.x), seat.v, point.y), normal, height);
}

/** A point of the vehicle in the plate's own plane, and its height above the lower face. */
export function inPlate(placed: PlacedPlate, point: Vector): Point & { readonly height: number } {
  const from = minus(point, placed.seat.origin);
  return {
    x: dot(from, placed.seat.u),
    y: dot(from, placed.seat.v),
    height: dot(from, placed.normal),
  };
}
