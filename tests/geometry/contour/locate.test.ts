import {
  circle,
  clockwise,
  flatten,
  locate,
  locateInRegion,
  type Point,
  polygon,
  rectangle,
  rotate,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { randomPlateShape, randomStar, seeded } from "./shapes.js";

describe("locate", () => {
  test("rays through vertices and along edges are counted once", () => {
    const diamond = polygon([
      { x: 0, y: -5 },
      { x: 5, y: 0 },
      { x: 0, y: 5 },
      { x: -5, y: 0 },
    ]);
    expect(locate(diamond, { x: 0, y: 0 })).toBe("inside");
    expect(locate(diamond, { x: -6, y: 0 })).toBe("outside");
    expect(locate(diamond, { x: -6, y: 5 })).toBe("outside");
    const comb = polygon([
      { x: 0, y: 0 },
      { x: 9, y: 0 },
      { x: 9, y: 4 },
      { x: 6, y: 2 },
      { x: 5, y: 2 },
      { x: 3, y: 4 },
      { x: 0, y: 2 },
    ]);
    expect(locate(comb, { x: 1, y: 2 })).toBe("inside");
    expect(locate(comb, { x: -1, y: 2 })).toBe("outside");
    expect(locate(comb, { x: -1, y: 4 })).toBe("outside");
  });

  test("a ray through a circle's poles and joints", () => {
    for (const degrees of [0, 30, 90, 180, 270]) {
      const disc = rotate(circle({ x: 0, y: 0 }, 5), degrees);
      expect(locate(disc, { x: 0, y: 0 })).toBe("inside");
      for (const y of [-5, 0, 5]) expect(locate(disc, { x: -7, y })).toBe("outside");
      expect(locate(disc, { x: 5, y: 0 })).toBe("on");
      expect(locate(disc, { x: 5 + 2e-6, y: 0 })).toBe("outside");
      expect(locate(disc, { x: 5.1, y: 0 }, 0.2)).toBe("on");
    }
  });

  test("agrees with angle counting on random contours, whichever way they run", () => {
    const random = seeded(11);
    let inside = 0;
    for (let round = 0; round < 150; round++) {
      const make = round % 2 ? randomStar : randomPlateShape;
      const contour = make(random, { x: 0, y: 0 }, 20);
      const fine = flatten(contour, 1e-4, "on");
      for (let k = 0; k < 30; k++) {
        const point = { x: (random() - 0.5) * 50, y: (random() - 0.5) * 50 };
        if (locate(contour, point, 1e-3) === "on") continue;
        const expected = Math.abs(windingByAngles(fine, point)) > 0.5 ? "inside" : "outside";
        expect(locate(contour, point)).toBe(expected);
        expect(locate(clockwise(contour), point)).toBe(expected);
        if (expected === "inside") inside++;
      }
    }
    expect(inside).toBeGreaterThan(300);
  });

  test("openings are outside the material", () => {
    const ring = { outer: rectangle(0, 0, 10, 10), openings: [clockwise(circle({ x: 5, y: 5 }, 2))] };
    expect(locateInRegion(ring, { x: 5, y: 5 })).toBe("outside");
    expect(locateInRegion(ring, { x: 7, y: 5 })).toBe("on");
    expect(locateInRegion(ring, { x: 1, y: 5 })).toBe("inside");
    expect(locateInRegion(ring, { x: -1, y: 5 })).toBe("outside");
    expect(() => locate(ring.outer, { x: Number.NaN, y: 0 })).toThrow(RangeError);
  });
});

function windingByAngles(points: readonly Point[], at: Point): number {
  let sum = 0;
  points.forEach((from, index) => {
    const to = points[(index + 1) % points.length] ?? from;
    const [ax, ay, bx, by] = [from.x - at.x, from.y - at.y, to.x - at.x, to.y - at.y];
    sum += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  });
  return sum / (2 * Math.PI);
}
