import { type Contour, offsetRegion, type Point, polygon, roundedPolygon, segments } from "@keelcut/geometry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { insideCorners } from "../../../../packages/geometry/src/checks/cuttability/inside-corners.js";
import { isReachedEverywhere } from "../../../../packages/geometry/src/checks/cuttability/reach.js";
import { pointDistance } from "../../../../packages/geometry/src/contour/distance.js";
import { pointAt } from "../../../../packages/geometry/src/contour/segment.js";

const KERF = 3;

const outlineOf = (contour: Contour) =>
  ({ contour, isOutline: true, name: "outline", kind: "outline" }) as const;

/** How much farther the outline grown and shrunk back stays from it than its corners explain, mm. */
function leftUncut(contour: Contour): number {
  const reached = offsetRegion({ outer: contour, openings: [] }, KERF / 2)
    .flatMap((grown) => offsetRegion(grown, -KERF / 2))
    .flatMap(({ outer, openings }) => [outer, ...openings]);
  const corners = insideCorners(outlineOf(contour), KERF / 2);
  const most = Math.max(0, ...corners.map(({ uncut }) => uncut));
  const far = (at: Point): number => Math.min(...reached.map((curve) => pointDistance(curve, at)));
  return Math.max(
    ...corners.map(({ at, uncut }) => far(at) - uncut),
    ...segments(contour).map((piece) => far(pointAt(piece, 0.5)) - most),
  );
}

/** A comb: teeth with gaps of any width, upright or leaning, its corners sharp or round. */
const combs = fc
  .record({
    gaps: fc.array(fc.double({ min: 1.5, max: 9, noNaN: true }), { minLength: 1, maxLength: 4 }),
    depth: fc.double({ min: 0.5, max: 12, noNaN: true }),
    lean: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
    radius: fc.constantFrom(0, 0.4, 1.5, 2),
  })
  .map(({ gaps, depth, lean, radius }) => {
    const points: Point[] = [
      { x: 0, y: -10 },
      { x: 100, y: -10 },
      { x: 100, y: 10 },
    ];
    let x = 90;
    for (const gap of gaps) {
      points.push({ x, y: 10 }, { x: x + lean * depth, y: 10 - depth });
      points.push({ x: x - gap + lean * depth, y: 10 - depth }, { x: x - gap, y: 10 });
      x -= gap + 12;
    }
    points.push({ x: 0, y: 10 });
    const round = Math.min(radius, ...gaps.map((gap) => gap / 4), depth / 4);
    return radius === 0
      ? polygon(points)
      : roundedPolygon(points.map((point) => ({ ...point, radius: round })));
  });

describe("Discs laid against an outline", () => {
  test("prove only what growing and shrinking confirms", () => {
    let proven = 0;
    let narrow = 0;
    fc.assert(
      fc.property(combs, (contour) => {
        if (isReachedEverywhere(outlineOf(contour), KERF / 2)) {
          proven += 1;
          expect(leftUncut(contour)).toBeLessThan(0.001);
        } else if (leftUncut(contour) > 0.01) narrow += 1;
      }),
      { numRuns: 150, seed: 7 },
    );
    expect(proven).toBeGreaterThan(20);
    expect(narrow).toBeGreaterThan(20);
  });
});
