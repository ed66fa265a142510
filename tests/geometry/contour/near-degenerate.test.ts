import { readFileSync } from "node:fs";
import {
  type Contour,
  circle,
  contourDistance,
  intersect,
  obround,
  offsetRegion,
  pointAt,
  pointDistance,
  type Region,
  rectangle,
  regionArea,
  regionFaults,
  regionLength,
  rotate,
  roundedPolygon,
  segmentIntersections,
  segments,
  subtract,
  TOLERANCE,
  translate,
  unite,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { randomPlateShape, randomStar, seeded } from "./shapes.js";

const solid = (outer: Contour): Region => ({ outer, openings: [] });
const area = (regions: readonly Region[]) => regions.reduce((sum, region) => sum + regionArea(region), 0);
const length = (regions: readonly Region[]) => regions.reduce((sum, region) => sum + regionLength(region), 0);
const sound = (regions: readonly Region[]) => regions.every((region) => regionFaults(region).length === 0);

function expectConsistent(a: readonly Region[], b: readonly Region[]): void {
  const [both, either, rest] = [intersect(a, b), unite([...a, ...b]), subtract(a, b)];
  for (const result of [both, either, rest]) expect(sound(result)).toBe(true);
  const slack = TOLERANCE * (length(a) + length(b));
  expect(Math.abs(area(either) + area(both) - area(a) - area(b))).toBeLessThan(slack);
  expect(Math.abs(area(rest) + area(both) - area(a))).toBeLessThan(slack);
}

function expectParallel(source: Region, distance: number): void {
  const contours = [source.outer, ...source.openings];
  const results = offsetRegion(source, distance);
  expect(sound(results)).toBe(true);
  for (const contour of results.flatMap((result) => [result.outer, ...result.openings])) {
    for (const piece of segments(contour)) {
      const away = Math.min(...contours.map((other) => pointDistance(other, pointAt(piece, 0.5))));
      expect(Math.abs(away - Math.abs(distance))).toBeLessThan(2 * TOLERANCE);
    }
  }
}

describe("nearly tangent, nearly coincident, nearly concurrent", () => {
  test("grid shapes moved by 1e-4 to 1e-10 mm", () => {
    const random = seeded(91);
    const whole = (most: number) => Math.floor(random() * most);
    const jittered = (contour: Contour): Contour => {
      const most = 10 ** -(4 + whole(7));
      const by = () => (random() - 0.5) * most;
      return rotate(translate(contour, by(), by()), random() < 0.3 ? by() : 0);
    };
    const gridShape = (): Contour => {
      const [x, y] = [whole(8), whole(8)];
      const kind = whole(4);
      if (kind === 0) return circle({ x, y }, 1 + whole(4));
      if (kind === 1) return rectangle(x, y, 1 + whole(5), 1 + whole(5));
      if (kind === 2) return obround({ x, y }, { x, y: y + 1 + whole(5) }, 2 * (1 + whole(2)));
      const side = 4 + whole(4);
      return roundedPolygon(rectangle(x, y, side, side).map((corner) => ({ ...corner, radius: whole(3) })));
    };
    for (let round = 0; round < 120; round++) {
      const turn = round % 2 ? random() * 360 : 0;
      const some = () =>
        unite(Array.from({ length: 1 + whole(4) }, () => solid(jittered(rotate(gridShape(), turn)))));
      const [a, b] = [some(), some()];
      for (const result of [a, b]) expect(sound(result)).toBe(true);
      expectConsistent(a, b);
      for (const region of a) {
        for (const way of [1, -1]) expectParallel(region, (way * (1 + whole(6))) / 4);
      }
    }
  });

  test("results rounded to 2, 4 or 6 decimals, as files bring them, and used again", () => {
    const random = seeded(92);
    for (let round = 0; round < 45; round++) {
      const unit = 10 ** (2 + 2 * (round % 3));
      const rounded = (contour: Contour): Contour =>
        contour.map(({ x, y, bulge }) => ({
          x: Math.round(x * unit) / unit,
          y: Math.round(y * unit) / unit,
          bulge: Math.round(bulge * unit * 100) / unit / 100,
        }));
      const make = () => {
        const place = { x: random() * 30, y: random() * 30 };
        return solid(
          rounded(
            random() < 0.5
              ? randomStar(random, place, 12)
              : rotate(randomPlateShape(random, place, 14), 360 * random()),
          ),
        );
      };
      const plates = subtract(unite([make(), make(), make()]), [make(), make()])
        .map(({ outer, openings }) => ({ outer: rounded(outer), openings: openings.map(rounded) }))
        .filter((plate) => sound([plate]));
      const other = [make()].filter((plate) => sound([plate]));
      expectConsistent(plates, other);
      for (const plate of plates)
        for (const distance of [0.1, -0.1, 1.5875, -1.5875]) expectParallel(plate, distance);
    }
  });
});

interface Fixture {
  readonly name: string;
  /** Contours as lists of [x, y, bulge]. */
  readonly a: readonly (readonly (readonly [number, number, number])[])[];
  readonly b: readonly (readonly (readonly [number, number, number])[])[];
}

const fixtures: Fixture[] = JSON.parse(
  readFileSync(new URL("./nearly-degenerate.json", import.meta.url), "utf8"),
);

describe("found while testing", () => {
  test("the fixtures are there", () => expect(fixtures.length).toBeGreaterThan(9));

  test.each(fixtures)("$name", ({ a, b }) => {
    const regions = (contours: Fixture["a"]) =>
      unite(contours.map((contour) => solid(contour.map(([x, y, bulge]) => ({ x, y, bulge })))));
    const [p, q] = [regions(a), regions(b)];
    for (const result of [p, q]) expect(sound(result)).toBe(true);
    expectConsistent(p, q);
    for (const region of unite([...p, ...q])) {
      const size = Math.sqrt(regionArea(region));
      for (const distance of [0.5, -0.5, 1, -1, 0.07 * size, -0.07 * size]) expectParallel(region, distance);
    }
  });

  test("lines on one line, apart: parallel up to rounding, they do not cross", () => {
    for (let degrees = 1; degrees < 90; degrees++) {
      const [a, b] = [rectangle(0, 0, 7, 3), rectangle(20, 0, 5, 3)].map((contour) =>
        rotate(contour, degrees),
      );
      expect(contourDistance(a ?? [], b ?? [])).toBeCloseTo(13, 9);
    }
  });

  test("a nearly straight arc (radius 2386 m) crossed by a small one: the crossing lies on both", () => {
    const [flat] = segments([
      { x: 19.877028913702816, y: 13.496985623729415, bulge: 1.0e-6 },
      { x: 17.2, y: 23.0, bulge: 0 },
    ]);
    const center = { x: 25.78712425577828, y: 33.44563096431451 };
    const radius = 18.415405704508345;
    if (flat?.kind !== "arc") throw new Error("an arc");
    expect(flat.radius).toBeGreaterThan(1e6);
    const meetings = segments(circle(center, radius)).flatMap((half) => segmentIntersections(half, flat));
    expect(meetings).toHaveLength(1);
    for (const at of meetings) {
      expect(Math.abs(Math.hypot(at.x - center.x, at.y - center.y) - radius)).toBeLessThan(1e-8);
      expect(Math.abs(Math.hypot(at.x - flat.center.x, at.y - flat.center.y) - flat.radius)).toBeLessThan(
        1e-8,
      );
    }
  });

  test("long lines that cross at a ten-millionth of a radian: united either way round", () => {
    const needle = (tip: number): Region =>
      solid([
        { x: 0, y: 0, bulge: 0 },
        { x: 200, y: tip, bulge: 0 },
        { x: 200, y: 50, bulge: 0 },
        { x: 0, y: 50, bulge: 0 },
      ]);
    const lifted = { outer: translate(needle(0).outer, 0, 8e-6), openings: [] };
    for (const degrees of [0, 17, 60, 211]) {
      const turned = (region: Region): Region => solid(rotate(region.outer, degrees));
      expectConsistent([turned(needle(2e-5))], [turned(lifted)]);
    }
  });

  test("an obround end tangent to a side that another shape shares", () => {
    const turn = 284.9637306109071;
    const a = [obround({ x: 6, y: 0 }, { x: 7, y: 0 }, 4)].map((contour) => solid(rotate(contour, turn)));
    const b = [roundedPolygon(rectangle(3, 2, 8, 6).map((corner) => ({ ...corner, radius: 1 })))].map(
      (contour) => solid(rotate(contour, turn)),
    );
    expectConsistent(a, b);
    expect(unite([...a, ...b])).toHaveLength(1);
  });
});
