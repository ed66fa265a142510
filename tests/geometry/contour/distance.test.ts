import {
  type Contour,
  circle,
  clockwise,
  contourDistance,
  contourGap,
  contoursCross,
  flatten,
  locate,
  mirrorX,
  obround,
  type Point,
  pointDistance,
  polygon,
  type Region,
  rectangle,
  regionGap,
  rotate,
  segmentIntersections,
  segments,
  translate,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { alongCurve, milliseconds, randomPlateShape, randomStar, seeded } from "./shapes.js";

const origin = { x: 0, y: 0 };

describe("distance, closed forms", () => {
  const pairs: [string, Contour, Contour, number][] = [
    ["circles apart", circle(origin, 3), circle({ x: 6, y: 8 }, 2), 5],
    ["circle in circle", circle(origin, 10), circle({ x: 3, y: 4 }, 2), 3],
    ["concentric circles", circle(origin, 10), rotate(circle(origin, 4), 50), 6],
    ["circles that cross", circle(origin, 5), circle({ x: 6, y: 0 }, 5), 0],
    ["circle beside a rectangle", circle({ x: 15, y: 2 }, 2), rectangle(0, 0, 10, 10), 3],
    ["circle off a corner", circle({ x: 13, y: 14 }, 2), rectangle(0, 0, 10, 10), 3],
    ["circle in a rectangle", circle({ x: 5, y: 4 }, 3), rectangle(0, 0, 10, 10), 1],
    ["touching circles", circle(origin, 3), circle({ x: 5, y: 0 }, 2), 0],
    ["a micrometre apart", circle(origin, 3), circle({ x: 5.001, y: 0 }, 2), 0.001],
    ["a tenth of the tolerance apart", circle(origin, 3), circle({ x: 5.0000001, y: 0 }, 2), 1e-7],
    ["circles that touch within their arcs", circle(origin, 3), circle({ x: 0, y: 8 }, 5), 0],
    ["a circle that touches another from inside", circle(origin, 10), circle({ x: 3, y: 4 }, 5), 0],
    ["a circle on a rectangle's side", circle({ x: 10, y: 13 }, 3), rectangle(0, 0, 20, 10), 0],
    ["a circle in a rectangle against its side", circle({ x: 5, y: 4 }, 4), rectangle(0, 0, 20, 10), 0],
    [
      "slots side by side",
      obround(origin, { x: 9, y: 0 }, 4),
      obround({ x: 3, y: 7 }, { x: 20, y: 7 }, 4),
      3,
    ],
    ["rectangles corner to corner", rectangle(0, 0, 1, 1), rectangle(4, 5, 1, 1), 5],
  ];
  test.each(pairs)("%s", (_, a, b, expected) => {
    for (const scale of [0.01, 1, 100]) {
      for (const degrees of [0, 90, 33]) {
        for (const mirrored of [false, true]) {
          const [p, q] = [a, b].map((contour) => {
            const scaled = contour.map((v) => ({ x: v.x * scale, y: v.y * scale, bulge: v.bulge }));
            return rotate(mirrored ? mirrorX(scaled) : scaled, degrees);
          });
          if (!p || !q) throw new Error("two contours");
          expect(Math.abs(contourDistance(p, q) - expected * scale)).toBeLessThan(1e-12 * scale * 100);
          expect(Math.abs(contourDistance(q, p) - expected * scale)).toBeLessThan(1e-12 * scale * 100);
        }
      }
    }
  });
});

describe("distance of random contours", () => {
  test("is that of fine polygons, its points lie on the curves, no prune loses it", () => {
    const random = seeded(21);
    let apart = 0;
    for (let round = 0; round < 120; round++) {
      const a = rotate(randomStar(random, origin, 20), random() * 360);
      const b = randomPlateShape(random, { x: random() * 60 - 30, y: random() * 60 - 30 }, 15);
      const gap = contourGap(a, b);
      const brute = polygonDistance(flatten(a, 1e-3, "on"), flatten(b, 1e-3, "on"));
      if (contoursCross(a, b)) {
        expect(gap.distance).toBe(0);
        expect(pointDistance(a, gap.from)).toBeLessThan(1e-9);
        expect(pointDistance(b, gap.from)).toBeLessThan(1e-9);
      } else if (gap.distance > 0) {
        apart++;
        expect(Math.abs(gap.distance - brute)).toBeLessThan(2.1e-3);
        expect(pointDistance(a, gap.from)).toBeLessThan(1e-9);
        expect(pointDistance(b, gap.to)).toBeLessThan(1e-9);
        expect(Math.hypot(gap.to.x - gap.from.x, gap.to.y - gap.from.y)).toBeCloseTo(gap.distance, 9);
      }
    }
    expect(apart).toBeGreaterThan(40);
  });

  test("100 segments against 100 take less than a millisecond", () => {
    const gear = (x: number): Contour =>
      Array.from({ length: 100 }, (_, k) => ({
        x: x + (20 + 2 * (k % 2)) * Math.cos((k * Math.PI) / 50),
        y: (20 + 2 * (k % 2)) * Math.sin((k * Math.PI) / 50),
        bulge: k % 3 ? 0 : 0.3,
      }));
    const [a, b] = [gear(0), gear(50)];
    expect(milliseconds(() => contourDistance(a, b), 200)).toBeLessThan(1);
  });
});

describe("gap of regions", () => {
  const ring: Region = { outer: circle(origin, 20), openings: [clockwise(circle(origin, 15))] };
  const disc = (x: number, radius: number): Region => ({ outer: circle({ x, y: 0 }, radius), openings: [] });

  test("a plate in an opening of another is as far as the opening", () => {
    expect(regionGap(ring, disc(2, 10)).distance).toBeCloseTo(3, 12);
    expect(regionGap(disc(2, 10), ring).distance).toBeCloseTo(3, 12);
    expect(regionGap(disc(2, 10), ring).from.x).toBeCloseTo(12, 9);
  });

  test("overlapping material has no gap, wherever it overlaps", () => {
    for (const other of [disc(17.5, 1), disc(5, 12), disc(0, 17), disc(0, 30), disc(28, 10), ring]) {
      expect(regionGap(ring, other).distance).toBe(0);
      expect(regionGap(other, ring).distance).toBe(0);
    }
  });

  test("beside it", () => {
    expect(regionGap(ring, disc(40, 5)).distance).toBeCloseTo(15, 12);
    expect(
      regionGap(ring, { ...ring, outer: translate(ring.outer, 45, 0), openings: [] }).distance,
    ).toBeCloseTo(5, 12);
  });
});

describe("intersections", () => {
  test("a line through a circle, along it, past it", () => {
    const [lower] = segments(rotate(circle(origin, 5), 180));
    if (lower === undefined) throw new Error("a circle has segments");
    const at = (y: number) =>
      segmentIntersections({ kind: "line", from: { x: -9, y }, to: { x: 9, y } }, lower).map(({ x }) => x);
    expect(at(-3).sort((p, q) => p - q)).toEqual([-4, 4]);
    expect(at(-5)).toHaveLength(1);
    expect(at(-5 - 5e-7)).toHaveLength(1);
    expect(at(-5 + 5e-10)).toHaveLength(1);
    expect(at(-5 + 5e-7)).toHaveLength(2);
    expect(at(-5 - 2e-6)).toHaveLength(0);
    expect(at(-5.1)).toEqual([]);
    expect(at(3)).toEqual([]);
    expect(at(0)).toHaveLength(2);
  });

  test("lines along each other meet at the ends of the common stretch", () => {
    const a = { kind: "line", from: { x: 0, y: 0 }, to: { x: 10, y: 0 } } as const;
    const b = { kind: "line", from: { x: 15, y: 0 }, to: { x: 4, y: 0 } } as const;
    const meetings = segmentIntersections(a, b);
    expect(meetings.map(({ x }) => x).sort((p, q) => p - q)).toEqual([4, 10]);
    expect(meetings.find(({ x }) => x === 10)?.onB).toBeCloseTo(5 / 11, 12);
  });

  test("touching is not crossing", () => {
    expect(contoursCross(rectangle(0, 0, 4, 4), rectangle(4, 1, 4, 2))).toBe(false);
    expect(contoursCross(circle(origin, 5), circle({ x: 2, y: 0 }, 3))).toBe(false);
    expect(contoursCross(circle(origin, 5), circle({ x: 2.001, y: 0 }, 3))).toBe(true);
    expect(contoursCross(rectangle(0, 0, 4, 4), rectangle(0, 0, 4, 4))).toBe(false);
    expect(contoursCross(rectangle(0, 0, 4, 4), rectangle(1, -1, 2, 6))).toBe(true);
  });

  test("crossing agrees with points of one inside and outside the other", () => {
    const random = seeded(5);
    const seen = { true: 0, false: 0 };
    for (let round = 0; round < 120; round++) {
      const a = randomStar(random, origin, 12);
      const b = randomPlateShape(random, { x: random() * 40 - 20, y: random() * 40 - 20 }, 20);
      const sides = new Set(alongCurve(a, 0.02).map((point) => locate(b, point, 1e-4)));
      const crosses = sides.has("inside") && sides.has("outside");
      expect(contoursCross(a, b)).toBe(crosses);
      seen[`${crosses}`]++;
    }
    expect(Math.min(seen.true, seen.false)).toBeGreaterThan(20);
  });
});

function polygonDistance(a: readonly Point[], b: readonly Point[]): number {
  const [p, q] = [polygon(a), polygon(b)];
  return Math.min(...a.map((point) => pointDistance(q, point)), ...b.map((point) => pointDistance(p, point)));
}
