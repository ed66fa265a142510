import { flatten, regionArea } from "@keelcut/geometry";
import DiscreteHausdorffDistance from "jsts/org/locationtech/jts/algorithm/distance/DiscreteHausdorffDistance.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import GeoJSONReader from "jsts/org/locationtech/jts/io/GeoJSONReader.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";
import { describe, expect, it } from "vitest";
import { type Polygon, polygonArea, type Ring } from "../../packages/nesting/src/nofit/polygon.js";
import { type Random, randomIndex, seededRandom } from "../../packages/nesting/src/random.js";
import { packingShape } from "../../packages/nesting/src/shape.js";
import { forbid } from "../../packages/nesting/src/sheets/column.js";
import { newGaps, resetGaps, takeOut } from "../../packages/nesting/src/sheets/gaps.js";
import { moved, movedExtent, oriented, splitShape } from "../../packages/nesting/src/sheets/oriented.js";
import { STRIDE, type Trapezoids, trapezoids } from "../../packages/nesting/src/sheets/trapezoids.js";
import { simplifyOutward } from "../../packages/nesting/src/simplify.js";
import { randomJob } from "./random-jobs.js";

const regions = Array.from({ length: 30 }, (_, index) => randomJob(index + 500)).flatMap((job) =>
  job.parts.map((part) => part.region),
);

const reader = new GeoJSONReader(new GeometryFactory());

function shapeOf(polygon: Polygon, dx = 0, dy = 0): { getArea(): number } {
  const ring = (flat: Ring): number[][] => {
    const corners: number[][] = [];
    for (let i = 0; i < flat.length; i += 2) corners.push([(flat[i] ?? 0) + dx, (flat[i + 1] ?? 0) + dy]);
    return [...corners, corners[0] ?? []];
  };
  return reader.read({ type: "Polygon", coordinates: [ring(polygon.outer), ...polygon.openings.map(ring)] });
}

const spacing = { clearance: 0, edgeMargin: 0, chordError: 0.2 };

describe("simplifyOutward", () => {
  it("covers the ring given, stays within the error, and saves corners", () => {
    const random = seededRandom(1);
    let before = 0;
    let after = 0;
    for (const region of regions.slice(0, 14)) {
      const fine = flatten(region.outer, 0.02, "outside");
      const wobbly = fine.flatMap((point) => [point.x + 0.1 * random(), point.y + 0.1 * random()]);
      const ring = Float64Array.from(wobbly);
      const simple = simplifyOutward(ring, 0.3);
      before += ring.length;
      after += simple.length;
      const [given, made] = [
        shapeOf({ outer: ring, openings: [] }),
        shapeOf({ outer: simple, openings: [] }),
      ];
      expect(OverlayOp.difference(given, made).getArea()).toBeLessThan(1e-6);
      expect(DiscreteHausdorffDistance.distance(made, given, 0.2)).toBeLessThan(0.3 + 0.01);
    }
    expect(after).toBeLessThan(0.6 * before);
  });
});

describe("trapezoids", () => {
  it("have the area of the polygon, turned by any angle", () => {
    for (const region of regions) {
      const shape = packingShape(region, spacing);
      const area = polygonArea(shape.body);
      expect(area).toBeGreaterThanOrEqual(regionArea(region) - 1e-6);
      for (const rotation of [0, 17, 90, 211.3]) {
        const { body } = oriented(splitShape(shape), { rotation, mirrored: rotation > 100 });
        expect(Math.abs(trapezoidArea(body.pieces) - area)).toBeLessThan(1e-6 * area);
      }
    }
  });

  it("count overlapping windings once and turned-over openings as nothing taken away", () => {
    const square = Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10);
    const overlapping = Float64Array.of(5, 5, 15, 5, 15, 15, 5, 15);
    const turnedOver = Float64Array.of(2, 2, 4, 2, 4, 4, 2, 4);
    expect(trapezoidArea(trapezoids([square, turnedOver]))).toBeCloseTo(100, 9);
    const cut = [
      Float64Array.of(0, 0, 10, 0, 10, 5, 10, 10, 5, 10, 0, 10),
      Float64Array.of(5, 5, 10, 5, 15, 5, 15, 15, 5, 15, 5, 10),
    ];
    expect(trapezoidArea(trapezoids(cut))).toBeCloseTo(175, 9);
    expect(overlapping.length).toBe(8);
  });
});

describe("gaps", () => {
  it("agree with marking a line of points", () => {
    const random = seededRandom(3);
    for (let round = 0; round < 200; round++) {
      const gaps = newGaps();
      resetGaps(gaps, 0, 100);
      const free = Array.from({ length: 1001 }, () => true);
      for (let cut = 0; cut < 80; cut++) {
        const low = Math.round(random() * 1000) / 10 - 1;
        const high = low + Math.round(random() * 30) / 10;
        takeOut(gaps, low, high);
        free.forEach((_, index) => {
          if (index / 10 > low && index / 10 < high) free[index] = false;
        });
      }
      const inGap = (y: number): boolean => {
        for (let k = 0; k < gaps.count; k++) {
          if (y >= (gaps.ends[2 * k] ?? 0) && y <= (gaps.ends[2 * k + 1] ?? 0)) return true;
        }
        return false;
      };
      expect(free.map((_, index) => inGap(index / 10))).toEqual(free);
    }
  });
});

describe("forbid", () => {
  it("finds the heights at which two plates overlap, as an independent library sees them", () => {
    const random = seededRandom(4);
    let checked = 0;
    for (let round = 0; round < 80; round++) {
      const fixed = pick(random);
      const moving = pick(random);
      const x = (random() - 0.5) * 160;
      const obstacle = {
        pieces: moved(fixed.plate.body.pieces, 0, 0),
        box: movedExtent(fixed.plate.body.box, 0, 0),
      };
      const gaps = newGaps();
      resetGaps(gaps, -400, 400);
      forbid(moving.plate.body, x, [obstacle], gaps);
      const area = (y: number): number =>
        OverlayOp.intersection(shapeOf(fixed.polygon), shapeOf(moving.polygon, x, y)).getArea();
      for (let k = 0; k < gaps.count; k++) {
        const [low, high] = [gaps.ends[2 * k] ?? 0, gaps.ends[2 * k + 1] ?? 0];
        // Touching at the ends of a gap, apart within it, overlapping just beyond.
        expect(area(low)).toBeLessThan(1e-5);
        expect(area(high)).toBeLessThan(1e-5);
        expect(area((low + high) / 2)).toBeLessThan(1e-9);
        if (low > -400) expect(area(low - 0.01)).toBeGreaterThan(0);
        if (high < 400) expect(area(high + 0.01)).toBeGreaterThan(0);
        checked++;
      }
    }
    expect(checked).toBeGreaterThan(100);
  });

  /** Simple polygons only: jsts refuses rings that simplification made touch themselves. */
  function pick(random: Random): { polygon: Polygon; plate: ReturnType<typeof oriented> } {
    const region = regions[randomIndex(random, regions.length)];
    if (region === undefined) throw new Error("no regions");
    const shape = packingShape(region, spacing);
    return { polygon: shape.body, plate: oriented(splitShape(shape), { rotation: 0, mirrored: false }) };
  }
});

/** Area of the decomposed set. */
function trapezoidArea(pieces: Trapezoids): number {
  let area = 0;
  for (let t = 0; t < pieces.length; t += STRIDE) {
    const [left = 0, right = 0, low = 0, lowSlope = 0, high = 0, highSlope = 0] = pieces.subarray(
      t,
      t + STRIDE,
    );
    const width = right - left;
    area += width * (high - low + ((highSlope - lowSlope) * width) / 2);
  }
  return area;
}
