import { deriveFrame, flatten, locate, type Plate, placeContour } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { developedHole } from "../../../packages/geometry/src/plates/wrap.js";
import { tealParameters } from "./teal.js";

const frame = deriveFrame(tealParameters());
const wrap = frame.plates.find((plate) => plate.id === "wrap-port") as Plate;
const radius = 75.15 / 2;
const holeRadius = 3.5; // ISO 273 coarse for M6: 7
const pitch = 40;

describe("developed rod hole", () => {
  it("has the closed-form width and height", () => {
    const { at } = developedHole(radius, holeRadius, pitch / 2);
    expect(at(0).x - at(0.5).x).toBeCloseTo(
      radius * (Math.asin((20 + 3.5) / radius) - Math.asin((20 - 3.5) / radius)),
      9,
    );
    expect(at(0.25).y - at(0.75).y).toBeCloseTo(7, 9);
  });

  it("refuses a hole that leaves the pipe", () => {
    expect(() => developedHole(20, 3, 17.5)).toThrow(/does not cross/);
  });
});

describe("wrap of a surge duct", () => {
  it("is where a drill straight through a sampled cylinder comes out", () => {
    // Every point of a fine mesh of the pipe's surface belongs to a hole exactly when it is nearer than the hole's radius
    // to one of the two rods' lines.
    const rods = [-pitch / 2, pitch / 2];
    const station = 60;
    const holes = wrap.region.openings;
    expect(holes).toHaveLength(4);
    let inside = 0;
    const wrong: string[] = [];
    for (let i = 0; i < 600; i++) {
      const s = ((i + 0.37) / 600) * Math.PI * 75.15;
      const z = -radius * Math.cos(s / radius);
      for (let j = -14; j <= 14; j++) {
        const u = j * 0.283;
        const drilled = rods.some((rod) => Math.hypot(z - rod, u) < holeRadius);
        const near = rods.some((rod) => Math.abs(Math.hypot(z - rod, u) - holeRadius) < 0.02);
        if (near) continue;
        const open = holes.some((hole) => locate(hole, { x: s, y: station + u }) === "inside");
        if (open !== drilled) wrong.push(`s ${s} u ${u}`);
        if (drilled) inside++;
      }
    }
    expect(wrong).toEqual([]);
    expect(inside).toBeGreaterThan(500);
  });

  it("keeps the fitted arcs within 0.01 mm of the true outline", () => {
    const curve = developedHole(radius, holeRadius, pitch / 2);
    const quarter = (Math.PI / 2) * radius;
    const upper = wrap.region.openings[1];
    if (upper === undefined) throw new Error("no second hole");
    const moved = placeContour(upper, { x: -quarter, y: -60, rotation: 0, mirrored: false });
    const fine = flatten(moved, 1e-5, "on");
    for (let k = 0; k < 400; k++) {
      const point = curve.at(k / 400);
      const nearest = Math.min(
        ...fine.map((a, index) => {
          const b = fine[(index + 1) % fine.length] ?? a;
          const dx = b.x - a.x;
          const dy = b.y - a.y;
          const t = Math.max(
            0,
            Math.min(1, ((point.x - a.x) * dx + (point.y - a.y) * dy) / (dx * dx + dy * dy)),
          );
          return Math.hypot(point.x - a.x - t * dx, point.y - a.y - t * dy);
        }),
      );
      expect(nearest).toBeLessThan(0.011);
    }
  });
});
