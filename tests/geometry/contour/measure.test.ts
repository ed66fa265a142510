import {
  asCircle,
  bounds,
  type Contour,
  circle,
  clockwise,
  contourCentroid,
  contourLength,
  contourSecondMoments,
  flatten,
  hullOfCircles,
  mirrorX,
  obround,
  polygon,
  rectangle,
  regionArea,
  regionCentroid,
  regionSecondMoments,
  reversed,
  rotate,
  roundedPolygon,
  signedArea,
  translate,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { randomStar, seeded } from "./shapes.js";

const center = { x: 12, y: -7 };

describe("closed forms", () => {
  test("circle: area, length, centroid, second moments pi r4 / 4", () => {
    const disc = circle(center, 5);
    expect(signedArea(disc)).toBeCloseTo(Math.PI * 25, 11);
    expect(contourLength(disc)).toBeCloseTo(Math.PI * 10, 12);
    expect(contourCentroid(disc).x).toBeCloseTo(12, 12);
    expect(contourCentroid(disc).y).toBeCloseTo(-7, 12);
    const { ix, iy, ixy } = contourSecondMoments(disc);
    expect(ix).toBeCloseTo((Math.PI * 625) / 4, 9);
    expect(iy).toBeCloseTo((Math.PI * 625) / 4, 9);
    expect(ixy).toBeCloseTo(0, 9);
  });

  test("ring: pi (R4 - r4) / 4, whichever way the opening runs", () => {
    for (const opening of [circle(center, 3), reversed(circle(center, 3))]) {
      const ring = { outer: circle(center, 5), openings: [opening] };
      expect(regionArea(ring)).toBeCloseTo(Math.PI * 16, 11);
      expect(regionSecondMoments(ring).ix).toBeCloseTo((Math.PI * (625 - 81)) / 4, 9);
      expect(regionCentroid(ring).x).toBeCloseTo(12, 12);
    }
  });

  test("obround of length l between centres and width w: w l + pi w2 / 4", () => {
    const slot = obround({ x: 1, y: 2 }, { x: 4, y: 6 }, 3);
    expect(signedArea(slot)).toBeCloseTo(15 + (Math.PI * 9) / 4, 12);
    expect(contourLength(slot)).toBeCloseTo(10 + 3 * Math.PI, 12);
  });

  test("half disc: centroid 4 r / (3 pi) from its diameter, second moment r4 (pi/8 - 8/(9 pi)) about it", () => {
    const half: Contour = [
      { x: 6, y: 0, bulge: 1 },
      { x: -6, y: 0, bulge: 0 },
    ];
    expect(contourCentroid(half).y).toBeCloseTo(8 / Math.PI, 12);
    expect(contourSecondMoments(half).ix).toBeCloseTo(1296 * (Math.PI / 8 - 8 / (9 * Math.PI)), 9);
    expect(contourSecondMoments(half).iy).toBeCloseTo((1296 * Math.PI) / 8, 9);
  });

  test("circular segment: r2 (a - sin a) / 2 for a tiny and a large angle", () => {
    for (const angle of [1e-4, 0.02, 0.3, 2, 4, 6]) {
      const segment: Contour = [
        { x: 50, y: 0, bulge: Math.tan(angle / 4) },
        { x: 50 * Math.cos(angle), y: 50 * Math.sin(angle), bulge: 0 },
      ];
      const exact =
        angle < 0.1 ? 1250 * (angle ** 3 / 6 - angle ** 5 / 120) : 1250 * (angle - Math.sin(angle));
      expect(signedArea(segment) / exact).toBeCloseTo(1, 7);
    }
  });

  test("rectangle: b h3 / 12 about its own centroid wherever it lies", () => {
    const { ix, iy, ixy } = contourSecondMoments(rectangle(1000, -2000, 4, 6));
    expect(ix).toBeCloseTo(72, 9);
    expect(iy).toBeCloseTo(32, 9);
    expect(ixy).toBeCloseTo(0, 9);
  });
});

describe("measures of random contours", () => {
  const random = seeded(1);
  const stars = Array.from({ length: 80 }, () => randomStar(random, { x: 30, y: 10 }, 20));

  test("agree with a fine polygon", () => {
    for (const star of stars) {
      const fine = polygon(flatten(star, 1e-5, "on"));
      expect(signedArea(star)).toBeCloseTo(signedArea(fine), 2);
      expect(contourLength(star)).toBeCloseTo(contourLength(fine), 3);
      expect(contourCentroid(star).x).toBeCloseTo(contourCentroid(fine).x, 4);
      expect(contourSecondMoments(star).ix / contourSecondMoments(fine).ix).toBeCloseTo(1, 5);
      expect(contourSecondMoments(star).ixy / contourSecondMoments(fine).ix).toBeCloseTo(
        contourSecondMoments(fine).ixy / contourSecondMoments(fine).ix,
        5,
      );
    }
  });

  test("do not change when moved, turned, mirrored", () => {
    for (const star of stars) {
      for (const other of [
        translate(star, 5, 7),
        rotate(star, 37),
        rotate(star, 90, { x: 3, y: 3 }),
        mirrorX(star),
      ]) {
        expect(signedArea(other)).toBeCloseTo(signedArea(star), 8);
        expect(contourLength(other)).toBeCloseTo(contourLength(star), 9);
      }
      expect(signedArea(clockwise(star))).toBeCloseTo(-signedArea(star), 9);
      expect(reversed(reversed(star))).toEqual(star);
    }
  });

  test("bounds are tight: no point outside, each side touched", () => {
    for (const star of stars) {
      const box = bounds(star);
      const points = flatten(star, 1e-5, "on");
      expect(Math.min(...points.map((point) => point.x)) - box.minX).toBeGreaterThan(-1e-9);
      expect(Math.min(...points.map((point) => point.x)) - box.minX).toBeLessThan(1e-4);
      expect(box.maxY - Math.max(...points.map((point) => point.y))).toBeGreaterThan(-1e-9);
      expect(box.maxY - Math.max(...points.map((point) => point.y))).toBeLessThan(1e-4);
    }
  });
});

describe("builders", () => {
  test("quarter turns are exact", () => {
    expect(rotate(rectangle(0, 0, 3, 2), 90)).toEqual([
      { x: 0, y: 0, bulge: 0 },
      { x: 0, y: 3, bulge: 0 },
      { x: -2, y: 3, bulge: 0 },
      { x: -2, y: 0, bulge: 0 },
    ]);
  });

  test("a circle is recognised, turned and mirrored too; a slot is not", () => {
    expect(asCircle(rotate(mirrorX(circle(center, 5)), 33))?.radius).toBeCloseTo(5, 12);
    expect(asCircle(reversed(circle(center, 5)))?.center).toEqual(center);
    expect(asCircle(obround(center, { x: 0, y: 0 }, 3))).toBeUndefined();
    expect(asCircle(rectangle(0, 0, 1, 1))).toBeUndefined();
  });

  test("rounded corners take (4 - pi) r2 from a square; a clockwise one is turned", () => {
    const corners = [
      { x: 0, y: 0, radius: 2 },
      { x: 0, y: 10, radius: 2 },
      { x: 10, y: 10, radius: 2 },
      { x: 10, y: 0, radius: 2 },
    ];
    expect(signedArea(roundedPolygon(corners))).toBeCloseTo(100 - (4 - Math.PI) * 4, 12);
    const full = roundedPolygon(corners.map((corner) => ({ ...corner, radius: 5 })));
    expect(full).toHaveLength(4);
    expect(asCircle(full)?.radius).toBeCloseTo(5, 12);
    expect(() => roundedPolygon(corners.map((corner) => ({ ...corner, radius: 5.1 })))).toThrow(
      /corner 0 .*5\.1/,
    );
  });

  test("the hull of two equal discs is an obround, of n discs contains them all and touches each on it", () => {
    const hull = hullOfCircles([
      { center: { x: 0, y: 0 }, radius: 2 },
      { center: { x: 10, y: 0 }, radius: 2 },
    ]);
    expect(signedArea(hull)).toBeCloseTo(40 + 4 * Math.PI, 11);
    expect(
      asCircle(
        hullOfCircles([
          { center, radius: 9 },
          { center, radius: 4 },
        ]),
      )?.radius,
    ).toBe(9);
    const square = [0, 1, 2, 3].map((k) => ({ center: { x: 10 * (k & 1), y: 5 * (k & 2) }, radius: 0 }));
    expect(signedArea(hullOfCircles(square))).toBeCloseTo(100, 11);
  });

  test("the hull of random discs has the area of the hull of their points", () => {
    const random = seeded(4);
    for (let round = 0; round < 100; round++) {
      const discs = Array.from({ length: 2 + Math.floor(random() * 6) }, () => ({
        center: { x: random() * 100, y: random() * 100 },
        radius: random() * 25,
      }));
      const points = discs.flatMap(({ center, radius }) =>
        Array.from({ length: 720 }, (_, k) => ({
          x: center.x + radius * Math.cos((k * Math.PI) / 360),
          y: center.y + radius * Math.sin((k * Math.PI) / 360),
        })),
      );
      const area = signedArea(hullOfCircles(discs));
      const inner = hullArea(points);
      expect(area).toBeGreaterThan(inner - 1e-9);
      expect(area).toBeLessThan(inner * 1.0001);
    }
  });

  test("what is not finite or empty is refused", () => {
    expect(() => circle({ x: Number.NaN, y: 0 }, 1)).toThrow(RangeError);
    expect(() => circle(center, 0)).toThrow(RangeError);
    expect(() => rectangle(0, 0, -1, 1)).toThrow(RangeError);
    expect(() => polygon([center, center])).toThrow(RangeError);
    expect(() => obround(center, center, Number.POSITIVE_INFINITY)).toThrow(RangeError);
    expect(() => translate(circle(center, 1), Number.NaN, 0)).toThrow(RangeError);
  });
});

/** Andrew's monotone chain (1979). */
function hullArea(points: readonly { x: number; y: number }[]): number {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const half = (run: readonly { x: number; y: number }[]) => {
    const chain: { x: number; y: number }[] = [];
    for (const point of run) {
      for (;;) {
        const [a, b] = [chain.at(-2), chain.at(-1)];
        if (!a || !b || (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x) > 0) break;
        chain.pop();
      }
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return signedArea([...half(sorted), ...half(sorted.reverse())].map((point) => ({ ...point, bulge: 0 })));
}
