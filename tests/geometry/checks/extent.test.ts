import { type Contour, circle, flatten, obround, roundedPolygon } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { longestExtent, narrowestExtent } from "../../../packages/geometry/src/checks/cuttability/extent.js";

/** By trying every pair of points and every direction; slow and plain. */
function bruteForce(contour: Contour): { longest: number; narrowest: number } {
  const points = flatten(contour, 0.002, "on");
  let longest = 0;
  for (const a of points)
    for (const b of points) longest = Math.max(longest, Math.hypot(a.x - b.x, a.y - b.y));
  let narrowest = Number.POSITIVE_INFINITY;
  for (let step = 0; step < 3600; step += 1) {
    const angle = (step * Math.PI) / 3600;
    const along = points.map(({ x, y }) => x * Math.cos(angle) + y * Math.sin(angle));
    narrowest = Math.min(narrowest, Math.max(...along) - Math.min(...along));
  }
  return { longest, narrowest };
}

const corners = (points: readonly (readonly [number, number])[], radius: number): Contour =>
  roundedPolygon(points.map(([x, y]) => ({ x, y, radius })));

describe("extents by calipers agree with trying everything", () => {
  const table: readonly [string, Contour][] = [
    ["a circle", circle({ x: 3, y: -7 }, 20)],
    ["a slot at an angle", obround({ x: 0, y: 0 }, { x: 30, y: 17 }, 6)],
    [
      "a rectangle",
      corners(
        [
          [0, 0],
          [40, 0],
          [40, 10],
          [0, 10],
        ],
        2,
      ),
    ],
    [
      "a parallelogram",
      corners(
        [
          [0, 0],
          [40, 0],
          [70, 25],
          [30, 25],
        ],
        0,
      ),
    ],
    [
      "a triangle",
      corners(
        [
          [0, 0],
          [50, 3],
          [11, 37],
        ],
        0,
      ),
    ],
    [
      "a triangle with a long side first",
      corners(
        [
          [0, 0],
          [80, 0],
          [79, 9],
        ],
        0,
      ),
    ],
    [
      "a notched plate",
      corners(
        [
          [0, 0],
          [60, 0],
          [60, 30],
          [35, 30],
          [30, 8],
          [25, 30],
          [0, 30],
        ],
        1,
      ),
    ],
    [
      "a hexagon",
      corners(
        [
          [20, 0],
          [10, 17.3],
          [-10, 17.3],
          [-20, 0],
          [-10, -17.3],
          [10, -17.3],
        ],
        0,
      ),
    ],
    [
      "a heptagon",
      corners(
        [0, 1, 2, 3, 4, 5, 6].map((k) => [30 * Math.cos(k * 0.8976), 30 * Math.sin(k * 0.8976)] as const),
        3,
      ),
    ],
  ];

  it.each(table)("%s", (_, contour) => {
    const plain = bruteForce(contour);
    expect(longestExtent(contour)).toBeGreaterThanOrEqual(plain.longest - 1e-9);
    expect(longestExtent(contour)).toBeLessThan(plain.longest + 0.01);
    expect(narrowestExtent(contour)).toBeGreaterThan(plain.narrowest - 0.03);
    expect(narrowestExtent(contour)).toBeLessThan(plain.narrowest + 0.01);
  });
});
