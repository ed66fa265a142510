import { describe, expect, it } from "vitest";
import { depthAt, nearestTo } from "../../../packages/nesting/src/nofit/depth-field.js";
import { buildDepthFields } from "../../../packages/nesting/src/nofit/depth-field-builder.js";
import { cellPolygon, covers, distanceToRings, randomFrom, untangledPolygon } from "./random-polygons.js";

describe("depth fields", () => {
  const polygons = Array.from({ length: 40 }, (_, k) => {
    const random = randomFrom(900 + k);
    return k % 2 === 0
      ? untangledPolygon(random, 5 + (k % 20), undefined)
      : cellPolygon(random, 7, 5 + k).polygon;
  });
  const fields = buildDepthFields(polygons.map((polygon) => [polygon.outer, ...polygon.openings]));

  it("give the distance to the boundary inside and 0 outside, for every field in the pool", () => {
    const random = randomFrom(7);
    polygons.forEach((polygon, k) => {
      const rings = [polygon.outer, ...polygon.openings];
      for (let i = 0; i < 400; i++) {
        const x = random() * 50 - 5;
        const y = random() * 50 - 5;
        const distance = distanceToRings(rings, x, y);
        if (distance < 1e-9) continue;
        expect(depthAt(fields, k, x, y, 0)).toBeCloseTo(covers(polygon, x, y) ? distance : 0, 9);
      }
    });
  });

  it("hold on the very rim of their boxes, where rounding could lead to the next row or column of cells", () => {
    const random = randomFrom(9);
    polygons.forEach((polygon, k) => {
      const { outer } = polygon;
      const xs = outer.filter((_, i) => i % 2 === 0);
      const ys = outer.filter((_, i) => i % 2 === 1);
      for (let i = 0; i < 300; i++) {
        const along = random();
        for (const [x, y] of [
          [justBelow(Math.max(...xs)), mix(Math.min(...ys), Math.max(...ys), along)],
          [mix(Math.min(...xs), Math.max(...xs), along), justBelow(Math.max(...ys))],
        ] as const) {
          const distance = distanceToRings([outer, ...polygon.openings], x, y);
          if (distance < 1e-9) continue;
          expect(depthAt(fields, k, x, y, 0)).toBeCloseTo(covers(polygon, x, y) ? distance : 0, 9);
        }
      }
    });
  });

  it("name a boundary point at that distance", () => {
    const random = randomFrom(8);
    const nearest = { x: 0, y: 0, edge: 0 };
    polygons.forEach((polygon, k) => {
      for (let i = 0; i < 100; i++) {
        const x = random() * 40;
        const y = random() * 40;
        const depth = nearestTo(fields, k, x, y, 0, nearest);
        expect(depth).toBe(depthAt(fields, k, x, y, 0));
        if (depth === 0) continue;
        expect(Math.hypot(nearest.x - x, nearest.y - y)).toBeCloseTo(depth, 9);
        expect(distanceToRings([polygon.outer, ...polygon.openings], nearest.x, nearest.y)).toBeLessThan(
          1e-9,
        );
      }
    });
  });

  it("count a corner on the ray once, whatever the rounding", () => {
    const diamond = buildDepthFields([[Float64Array.of(0, -1 / 3, 1 / 7, 0, 0, 1 / 3, -1 / 7, 0)]]);
    for (const y of [0, 5e-324, -5e-324, 1e-17, -1e-17, 3e-17]) {
      expect(depthAt(diamond, 0, 0, y, 0)).toBeGreaterThan(0.1);
      expect(depthAt(diamond, 0, -0.142, y, 0)).toBeGreaterThan(0);
    }
  });
});

function mix(low: number, high: number, t: number): number {
  return low + t * (high - low);
}

/** The next number below a positive one. */
function justBelow(value: number): number {
  const bits = new BigInt64Array(Float64Array.of(value).buffer);
  return new Float64Array(BigInt64Array.of((bits[0] ?? 0n) - 1n).buffer)[0] ?? 0;
}
