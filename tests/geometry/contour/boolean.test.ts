import {
  type Contour,
  circle,
  clockwise,
  contourLength,
  intersect,
  locateInRegion,
  mirrorX,
  obround,
  placeRegion,
  type Region,
  rectangle,
  regionArea,
  regionFaults,
  regionLength,
  rotate,
  roundedPolygon,
  subtract,
  translate,
  unite,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { overlay, shapeOf } from "./jsts-shapes.js";
import { milliseconds, randomPlateShape, randomStar, seeded } from "./shapes.js";

const solid = (outer: Contour, ...openings: Contour[]): Region => ({
  outer,
  openings: openings.map(clockwise),
});
const area = (regions: readonly Region[]): number =>
  regions.reduce((sum, region) => sum + regionArea(region), 0);
const faults = (regions: readonly Region[]) => regions.flatMap(regionFaults);
const origin = { x: 0, y: 0 };

/** Regions of one result must not overlap; one with a hole and another in it are fine. */
function expectSound(regions: readonly Region[]): void {
  expect(faults(regions)).toEqual([]);
}

interface Fixture {
  readonly name: string;
  readonly a: Region;
  readonly b: Region;
  /** Closed forms of the common area, and how many regions and openings each result has. */
  readonly common: number;
  readonly union: [regions: number, openings: number];
  readonly difference: [regions: number, openings: number];
}

const square = rectangle(0, 0, 10, 10);
const lens = (r: number, d: number): number =>
  2 * r * r * Math.acos(d / (2 * r)) - (d / 2) * Math.sqrt(4 * r * r - d * d);
const fixtures: Fixture[] = [
  {
    name: "identical squares",
    a: solid(square),
    b: solid(square),
    common: 100,
    union: [1, 0],
    difference: [0, 0],
  },
  {
    name: "identical circles, one turned",
    a: solid(circle(origin, 5)),
    b: solid(rotate(circle(origin, 5), 30)),
    common: 25 * Math.PI,
    union: [1, 0],
    difference: [0, 0],
  },
  {
    name: "crossing circles",
    a: solid(circle(origin, 5)),
    b: solid(circle({ x: 6, y: 0 }, 5)),
    common: lens(5, 6),
    union: [1, 0],
    difference: [1, 0],
  },
  {
    name: "disc inside a square",
    a: solid(square),
    b: solid(circle({ x: 5, y: 5 }, 2)),
    common: 4 * Math.PI,
    union: [1, 0],
    difference: [1, 1],
  },
  {
    name: "disc touching the side from inside",
    a: solid(square),
    b: solid(circle({ x: 5, y: 3 }, 3)),
    common: 9 * Math.PI,
    union: [1, 0],
    difference: [1, 1],
  },
  {
    name: "disc touching two sides from inside",
    a: solid(square),
    b: solid(circle({ x: 5, y: 5 }, 5)),
    common: 25 * Math.PI,
    union: [1, 0],
    difference: [4, 0],
  },
  {
    name: "disc touching the side from outside",
    a: solid(square),
    b: solid(circle({ x: 13, y: 5 }, 3)),
    common: 0,
    union: [2, 0],
    difference: [1, 0],
  },
  {
    name: "squares side by side",
    a: solid(square),
    b: solid(rectangle(10, 0, 10, 10)),
    common: 0,
    union: [1, 0],
    difference: [1, 0],
  },
  {
    name: "squares sharing part of a side",
    a: solid(square),
    b: solid(rectangle(10, 3, 10, 10)),
    common: 0,
    union: [1, 0],
    difference: [1, 0],
  },
  {
    name: "squares at a corner",
    a: solid(square),
    b: solid(rectangle(10, 10, 10, 10)),
    common: 0,
    union: [2, 0],
    difference: [1, 0],
  },
  {
    name: "a notch flush with the side",
    a: solid(square),
    b: solid(rectangle(3, 6, 4, 4)),
    common: 16,
    union: [1, 0],
    difference: [1, 0],
  },
  {
    name: "a bar across",
    a: solid(square),
    b: solid(rectangle(-5, 4, 20, 2)),
    common: 20,
    union: [1, 0],
    difference: [2, 0],
  },
  {
    name: "a ring and a plug that fills it",
    a: solid(circle(origin, 8), circle(origin, 5)),
    b: solid(circle(origin, 5)),
    common: 0,
    union: [1, 0],
    difference: [1, 1],
  },
  {
    name: "a ring and a smaller plug",
    a: solid(circle(origin, 8), circle(origin, 5)),
    b: solid(circle(origin, 3)),
    common: 0,
    union: [2, 1],
    difference: [1, 1],
  },
  {
    name: "a frame closed by its own ends",
    a: solid(rectangle(0, 0, 10, 2)),
    b: solid(rectangle(0, 2, 2, 8)),
    common: 0,
    union: [1, 0],
    difference: [1, 0],
  },
  {
    name: "a slot whose round end is tangent to the side",
    a: solid(square),
    b: solid(obround({ x: 2, y: 5 }, { x: 6, y: 5 }, 4)),
    common: 16 + 4 * Math.PI,
    union: [1, 0],
    difference: [1, 1],
  },
  {
    name: "a rounded square in its sharp twin",
    a: solid(square),
    b: solid(roundedPolygon(square.map(({ x, y }) => ({ x, y, radius: 3 })))),
    common: 100 - (4 - Math.PI) * 9,
    union: [1, 0],
    difference: [4, 0],
  },
];

const motions: [string, (contour: Contour) => Contour][] = [
  ["as drawn", (contour) => contour],
  ["turned by 33 degrees", (contour) => rotate(contour, 33)],
  ["turned by 90 degrees", (contour) => rotate(contour, 90)],
  ["mirrored", mirrorX],
  ["a hundredth of the size", (contour) => scaled(contour, 0.01)],
  ["a hundred times the size", (contour) => scaled(contour, 100)],
  ["far away", (contour) => translate(rotate(contour, 12), 2000, -3000)],
];

function scaled(contour: Contour, by: number): Contour {
  return contour.map(({ x, y, bulge }) => ({ x: x * by, y: y * by, bulge }));
}

describe.each(motions)("booleans %s", (_, move) => {
  const moved = (region: Region): Region => ({
    outer: move(region.outer),
    openings: region.openings.map(move),
  });

  test.each(fixtures)("$name", ({ a, b, common, union, difference }) => {
    const [p, q] = [moved(a), moved(b)];
    const scale = regionArea(p) / regionArea(a);
    const shape = (regions: readonly Region[]) => [
      regions.length,
      regions.reduce((sum, region) => sum + region.openings.length, 0),
    ];
    const results = { both: intersect([p], [q]), either: unite([p, q]), rest: subtract([p], [q]) };
    for (const result of Object.values(results)) expectSound(result);
    expect(area(results.both) / scale).toBeCloseTo(common, 6);
    expect(area(results.either) / scale).toBeCloseTo(regionArea(a) + regionArea(b) - common, 6);
    expect(area(results.rest) / scale).toBeCloseTo(regionArea(a) - common, 6);
    expect(shape(results.either)).toEqual(union);
    expect(shape(results.rest)).toEqual(difference);
  });
});

describe("contours", () => {
  test("what nothing meets comes back as it was", () => {
    const plate = solid(
      roundedPolygon(square.map(({ x, y }) => ({ x, y, radius: 2 }))),
      circle({ x: 5, y: 5 }, 1),
      obround({ x: 2, y: 2 }, { x: 3, y: 2 }, 1),
    );
    const [same] = unite([plate]);
    expect(same?.outer).toHaveLength(8);
    for (const [index, opening] of plate.openings.entries()) {
      expect(same?.openings[index]).toHaveLength(opening.length);
      expect(contourLength(same?.openings[index] ?? [])).toBeCloseTo(contourLength(opening), 12);
    }
  });

  test("a vertex on a straight side stays where it was drawn, apart from where others meet the contour", () => {
    const drawn = [
      [0, 0],
      [5, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ].map(([x = 0, y = 0]) => ({ x, y, bulge: 0 }));
    expect(unite([solid(drawn)])[0]?.outer).toEqual(drawn);
    const [grown] = unite([solid(drawn), solid(rectangle(2, 9, 3, 4))]);
    expect(grown?.outer).toContainEqual({ x: 5, y: 0, bulge: 0 });
    const threeQuarters: Contour = [
      { x: 0, y: 0, bulge: Math.tan((3 * Math.PI) / 8) },
      { x: 4, y: 4, bulge: 0 },
    ];
    const [same] = unite([solid(threeQuarters)]);
    expect(same?.outer).toHaveLength(2);
    expect(same?.outer[0]?.bulge).toBeCloseTo(Math.tan((3 * Math.PI) / 8), 12);
  });

  test("joints vanish: two half plates are one plate again, a tangent neighbour leaves a circle two arcs", () => {
    const [whole] = unite([solid(rectangle(0, 0, 5, 10)), solid(rectangle(5, 0, 5, 10))]);
    expect(whole?.outer).toHaveLength(4);
    const [left] = unite([solid(circle(origin, 3)), solid(circle({ x: 5, y: 0 }, 2))]);
    expect(left?.outer).toHaveLength(2);
  });

  test("lines and arcs stay on their carriers: a disc with a bite", () => {
    const [bitten] = subtract([solid(circle(origin, 5))], [solid(circle({ x: 5, y: 0 }, 2))]);
    const half = Math.asin(1 / 5) * 2;
    expect(contourLength(bitten?.outer ?? [])).toBeCloseTo(
      5 * (2 * Math.PI - 2 * half) + 2 * 2 * Math.acos(2 / 10),
      9,
    );
  });

  test("nothing in, nothing out; what is not finite is refused", () => {
    expect(unite([])).toEqual([]);
    expect(subtract([solid(square)], []).map(regionArea)).toEqual([100]);
    expect(intersect([solid(square)], [])).toEqual([]);
    expect(() => unite([solid(scaled(square, Number.NaN))])).toThrow(RangeError);
  });
});

describe("random shapes", () => {
  const make = (random: () => number): Region => {
    const outer =
      random() < 0.5
        ? randomStar(random, at(random), 20)
        : rotate(randomPlateShape(random, at(random), 25), 360 * random());
    return solid(outer);
  };
  const at = (random: () => number) => ({ x: random() * 30, y: random() * 30 });

  test("areas agree with jsts on chords, and with each other exactly", () => {
    const random = seeded(101);
    for (let round = 0; round < 120; round++) {
      const [a, b] = [make(random), make(random)];
      const both = intersect([a], [b]);
      const either = unite([a, b]);
      const rest = subtract([a], [b]);
      for (const result of [both, either, rest]) expectSound(result);
      expect(area(either) + area(both)).toBeCloseTo(regionArea(a) + regionArea(b), 6);
      expect(area(rest) + area(both)).toBeCloseTo(regionArea(a), 6);
      if (round % 4) continue;
      const [p, q] = [shapeOf([a], 1e-5), shapeOf([b], 1e-5)];
      const slack = 1e-5 * (regionLength(a) + regionLength(b));
      expect(Math.abs(area(either) - overlay(p, q, "union").getArea())).toBeLessThan(slack);
      expect(Math.abs(area(rest) - overlay(p, q, "difference").getArea())).toBeLessThan(slack);
    }
  });

  test("a plate less many shapes: jsts agrees, and so do points", () => {
    const random = seeded(102);
    for (let round = 0; round < 6; round++) {
      const plate = solid(rectangle(0, 0, 100, 80));
      const cuts = Array.from({ length: 25 }, () =>
        solid(rotate(randomPlateShape(random, origin, 12), 360 * random())),
      ).map((cut) => placeRegion(cut, { x: random() * 100, y: random() * 80, rotation: 0, mirrored: false }));
      const rest = subtract([plate], cuts);
      expectSound(rest);
      const expected = overlay(shapeOf([plate], 1e-4), shapeOf(cuts, 1e-4), "difference").getArea();
      expect(Math.abs(area(rest) - expected)).toBeLessThan(1e-4 * 25 * 40);
      expect(area(unite([...rest, ...intersect([plate], unite(cuts))]))).toBeCloseTo(8000, 5);
      for (let k = 0; k < 200; k++) {
        const point = { x: random() * 100, y: random() * 80 };
        const isCut = cuts.some((cut) => locateInRegion(cut, point) === "inside");
        expect(rest.some((region) => locateInRegion(region, point) === "inside")).toBe(!isCut);
      }
    }
  });

  test("shapes on a coarse grid, full of tangent, coincident and touching edges, keep the area identities", () => {
    const random = seeded(103);
    const whole = (most: number) => Math.floor(random() * most);
    const gridShape = (): Contour => {
      const [x, y] = [whole(8), whole(8)];
      const kind = whole(4);
      if (kind === 0) return circle({ x, y }, 1 + whole(4));
      if (kind === 1) return rectangle(x, y, 1 + whole(5), 1 + whole(5));
      if (kind === 2) {
        const along = 1 + whole(5);
        return obround(
          { x, y },
          random() < 0.5 ? { x: x + along, y } : { x, y: y + along },
          2 * (1 + whole(2)),
        );
      }
      const side = 4 + whole(4);
      return roundedPolygon(rectangle(x, y, side, side).map((corner) => ({ ...corner, radius: whole(3) })));
    };
    for (let round = 0; round < 240; round++) {
      const turn = round % 3 === 2 ? random() * 360 : 0;
      const some = (): Region[] =>
        Array.from({ length: 1 + whole(4) }, () => solid(rotate(gridShape(), turn)));
      const [a, b] = [unite(some()), unite(some())];
      const both = intersect(a, b);
      const either = unite([...a, ...b]);
      const rest = subtract(a, b);
      for (const result of [a, b, both, either, rest]) expectSound(result);
      expect(area(either) + area(both)).toBeCloseTo(area(a) + area(b), 5);
      expect(area(rest) + area(both)).toBeCloseTo(area(a), 5);
      if (round % 20) continue;
      const slack = 1e-4 * 200;
      expect(
        Math.abs(area(either) - overlay(shapeOf(a, 1e-4), shapeOf(b, 1e-4), "union").getArea()),
      ).toBeLessThan(slack);
    }
  });

  test("a plate of 60 openings is united in tens of milliseconds", () => {
    const plates = [0, 45].map((shift) =>
      solid(
        rectangle(shift, 0, 400, 300),
        ...Array.from({ length: 60 }, (_, k) =>
          obround(
            { x: shift + 20 + 35 * (k % 10), y: 20 + 45 * Math.floor(k / 10) },
            { x: shift + 30 + 35 * (k % 10), y: 25 + 45 * Math.floor(k / 10) },
            12,
          ),
        ),
      ),
    );
    expect(milliseconds(() => unite(plates))).toBeLessThan(100);
  });
});
