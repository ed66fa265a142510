import {
  circle,
  clockwise,
  flatten,
  locate,
  type Point,
  polygon,
  rectangle,
  rotate,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { randomPlateShape, randomStar, seeded } from "./shapes.js";

describe("flatten", () => {
  test("straight contours come back without collinear vertices", () => {
    expect(flatten(rectangle(0, 0, 4, 2), 0.1, "outside")).toHaveLength(4);
    expect(
      flatten(
        polygon([
          { x: 0, y: 0 },
          { x: 2, y: 0 },
          { x: 4, y: 0 },
          { x: 0, y: 3 },
        ]),
        0.1,
        "on",
      ),
    ).toHaveLength(3);
  });

  test("a circle takes the fewest vertices the error allows", () => {
    // Tangent polygon: r (1 / cos(pi / n) - 1) <= e; chords: r (1 - cos(pi / n)) <= e.
    for (const radius of [0.1, 1, 10, 100]) {
      const fewest = (error: (n: number) => number) => {
        let n = 4;
        while (error(n) > 0.05 + 1e-12) n += 2;
        return n;
      };
      expect(flatten(circle({ x: 1, y: 2 }, radius), 0.05, "outside").length).toBe(
        fewest((n) => radius * (1 / Math.cos(Math.PI / n) - 1)),
      );
      expect(flatten(circle({ x: 1, y: 2 }, radius), 0.05, "inside").length).toBe(
        fewest((n) => radius * (1 - Math.cos(Math.PI / n))),
      );
    }
  });

  test("lies on its side and within the error, both ways", () => {
    const random = seeded(7);
    for (let round = 0; round < 60; round++) {
      const make = round % 2 ? randomStar : randomPlateShape;
      const turned = rotate(make(random, { x: 0, y: 0 }, 20), random() * 360);
      const contour = round % 3 ? turned : clockwise(turned);
      const error = [0.5, 0.05, 0.002][round % 3] ?? 1;
      const curve = flatten(contour, 1e-4, "on");
      const outside = polygon(flatten(contour, error, "outside"));
      const inside = polygon(flatten(contour, error, "inside"));
      for (const point of curve) expect(locate(outside, point, 1e-7)).not.toBe("outside");
      for (const vertex of inside) expect(locate(contour, vertex, 1e-7)).not.toBe("outside");
      for (const point of curve) expect(locate(inside, point, 1e-7)).not.toBe("inside");
      for (const vertex of outside) {
        expect(locate(contour, vertex, 1e-7)).not.toBe("inside");
        expect(distanceToPolygon(vertex, curve)).toBeLessThan(error + 1e-4);
      }
      for (const point of midpoints(inside))
        expect(distanceToPolygon(point, curve)).toBeLessThan(error + 1e-4);
      for (const point of curve) expect(distanceToPolygon(point, inside)).toBeLessThan(error + 1e-9);
    }
  });

  test("refuses an error that is not positive", () => {
    expect(() => flatten(circle({ x: 0, y: 0 }, 1), 0, "on")).toThrow(RangeError);
    expect(() => flatten(circle({ x: 0, y: 0 }, 1), Number.NaN, "on")).toThrow(RangeError);
  });
});

function midpoints(points: readonly Point[]): Point[] {
  return points.map((point, index) => {
    const next = points[(index + 1) % points.length] ?? point;
    return { x: (point.x + next.x) / 2, y: (point.y + next.y) / 2 };
  });
}

function distanceToPolygon(point: Point, polygon: readonly Point[]): number {
  return Math.min(
    ...polygon.map((from, index) => {
      const to = polygon[(index + 1) % polygon.length] ?? from;
      const square = (to.x - from.x) ** 2 + (to.y - from.y) ** 2;
      const t =
        square === 0
          ? 0
          : ((point.x - from.x) * (to.x - from.x) + (point.y - from.y) * (to.y - from.y)) / square;
      const along = Math.max(0, Math.min(1, t));
      return Math.hypot(
        from.x + (to.x - from.x) * along - point.x,
        from.y + (to.y - from.y) * along - point.y,
      );
    }),
  );
}
