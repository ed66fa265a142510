import { createRequire } from "node:module";
import {
  bounds,
  type Contour,
  contourLength,
  flatten,
  intersect,
  offsetContour,
  polygon,
  type Region,
  regionArea,
  rotate,
  subtract,
  unite,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { randomPlateShape, randomStar, seeded } from "./shapes.js";

// Libraries used as judges. Only the parts named below are used; their own types do not compile here.
const judge = createRequire(import.meta.url);

interface ClipperModule {
  Clipper: Record<
    "Union" | "Intersect" | "Difference",
    (subject: object, clip: object, rule: number) => object[]
  > & {
    area(path: object): number;
  };
  FillRule: { NonZero: number };
  Path64: new () => { push(point: object): void };
  Paths64: new () => { push(path: object): void };
  Point64: new (x: number, y: number) => object;
}
const clipper: ClipperModule = judge("clipper2-js");

interface MakerModule {
  model: { outline(model: object, distance: number, joints?: number, inside?: boolean): object };
  measure: {
    modelPathLength(model: object): number;
    modelExtents(model: object): { width: number; height: number };
  };
  paths: { Line: new (from: number[], to: number[]) => object };
}
const maker: MakerModule = judge("makerjs");

describe("booleans of polygons against integer clipping", () => {
  const GRID = 1e4;
  const snapped = (contour: Contour): Contour =>
    polygon(
      flatten(contour, 0.05, "on").map(({ x, y }) => ({
        x: Math.round(x * GRID) / GRID,
        y: Math.round(y * GRID) / GRID,
      })),
    );
  const paths = (contours: readonly Contour[]): object => {
    const all = new clipper.Paths64();
    for (const contour of contours) {
      const path = new clipper.Path64();
      for (const { x, y } of contour)
        path.push(new clipper.Point64(Math.round(x * GRID), Math.round(y * GRID)));
      all.push(path);
    }
    return all;
  };
  const solid = (outer: Contour): Region => ({ outer, openings: [] });
  const area = (regions: readonly Region[]) => regions.reduce((sum, region) => sum + regionArea(region), 0);

  test("60 pairs of sets: the same areas", () => {
    const random = seeded(81);
    const make = () => {
      const place = { x: random() * 30, y: random() * 30 };
      return snapped(
        random() < 0.5
          ? randomStar(random, place, 12)
          : rotate(randomPlateShape(random, place, 15), 360 * random()),
      );
    };
    for (let round = 0; round < 60; round++) {
      const [a, b] = [
        [make(), make()],
        [make(), make()],
      ];
      const [p, q] = [a.map(solid), b.map(solid)];
      const perimeter = [...a, ...b].reduce((sum, contour) => sum + contourLength(contour), 0);
      const judged = (how: "Union" | "Intersect" | "Difference") =>
        clipper.Clipper[how](paths(a), paths(b), clipper.FillRule.NonZero).reduce<number>(
          (sum, path) => sum + clipper.Clipper.area(path) / GRID ** 2,
          0,
        );
      // Integer clipping rounds each crossing to its grid.
      const slack = perimeter / GRID;
      expect(Math.abs(area(unite([...p, ...q])) - judged("Union"))).toBeLessThan(slack);
      expect(Math.abs(area(intersect(p, q)) - judged("Intersect"))).toBeLessThan(slack);
      expect(Math.abs(area(subtract(p, q)) - judged("Difference"))).toBeLessThan(slack);
    }
  });
});

describe("offsets against outlines with true arcs", () => {
  const modelOf = (contour: Contour): object => ({
    paths: Object.fromEntries(
      contour.map(({ x, y }, index) => {
        const next = contour[(index + 1) % contour.length] ?? { x, y };
        return [`p${index}`, new maker.paths.Line([x, y], [next.x, next.y])];
      }),
    ),
  });

  // The judge joins the ends at each concave corner to within 0.0005 mm, and comes out empty or wrong in about one case
  // of a hundred: so a few may differ.
  test("outward and inward outlines of polygons: the same length and extent", () => {
    const random = seeded(82);
    let agreed = 0;
    let compared = 0;
    for (let round = 0; round < 30; round++) {
      const contour = polygon(randomStar(random, { x: 0, y: 0 }, 20, false));
      for (const distance of [1.5, -0.5]) {
        const results = offsetContour(contour, distance);
        if (results.length !== 1) continue;
        const [only = []] = results;
        const outline = maker.model.outline(modelOf(contour), Math.abs(distance), 0, distance < 0);
        const box = bounds(only);
        const extent = maker.measure.modelExtents(outline);
        compared++;
        const lengthOff = Math.abs(maker.measure.modelPathLength(outline) - contourLength(only));
        const widthOff = Math.abs((extent?.width ?? 0) - (box.maxX - box.minX));
        if (lengthOff < 5e-3 && widthOff < 1e-4) agreed++;
      }
    }
    expect(compared).toBeGreaterThan(50);
    expect(agreed / compared).toBeGreaterThan(0.95);
  });
});
