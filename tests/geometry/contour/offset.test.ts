import {
  asCircle,
  type Contour,
  circle,
  clockwise,
  contourFaults,
  contourLength,
  flatten,
  locate,
  mirrorX,
  obround,
  offsetContour,
  offsetRegion,
  type Point,
  pointDistance,
  polygon,
  type Region,
  rectangle,
  regionArea,
  regionFaults,
  regionLength,
  reversed,
  rotate,
  roundedPolygon,
  segments,
  signedArea,
  subtract,
  TOLERANCE,
  tangentAt,
  translate,
  unite,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { buffered, shapeOf } from "./jsts-shapes.js";
import { alongCurve, milliseconds, randomPlateShape, randomStar, seeded } from "./shapes.js";

const origin = { x: 0, y: 0 };
const solid = (outer: Contour, ...openings: Contour[]): Region => ({
  outer,
  openings: openings.map(clockwise),
});
const area = (regions: readonly Region[]) => regions.reduce((sum, region) => sum + regionArea(region), 0);
const scaled = (contour: Contour, by: number): Contour =>
  contour.map(({ x, y, bulge }) => ({ x: x * by, y: y * by, bulge }));

/** Two 10 mm squares joined by a passage 2 mm wide and 6 mm long. */
const dumbbell = polygon(
  [
    [0, 0],
    [10, 0],
    [10, 4],
    [16, 4],
    [16, 0],
    [26, 0],
    [26, 10],
    [16, 10],
    [16, 6],
    [10, 6],
    [10, 10],
    [0, 10],
  ].map(([x = 0, y = 0]) => ({ x, y })),
);

/** A plate 20 x 10 with a notch 2 mm wide that widens to a 6 mm chamber. */
const keyhole = polygon(
  [
    [0, 0],
    [20, 0],
    [20, 10],
    [11, 10],
    [11, 8],
    [13, 8],
    [13, 2],
    [7, 2],
    [7, 8],
    [9, 8],
    [9, 10],
    [0, 10],
  ].map(([x = 0, y = 0]) => ({ x, y })),
);

describe("nearly straight arcs", () => {
  test("are offset like the lines they nearly are, whatever the radius", () => {
    const random = seeded(5);
    for (let round = 0; round < 400; round++) {
      const [width, height] = [20 + random() * 900, 20 + random() * 300];
      const corners = [
        [0, 0],
        [width, 0],
        [width, height],
        [0, height],
      ].map(([x = 0, y = 0]) => ({ x, y, bulge: (random() < 0.5 ? -1 : 1) * 10 ** (-10 + 8 * random()) }));
      const contour = translate(
        rotate(corners, random() * 360),
        random() * 2000 - 1000,
        random() * 2000 - 1000,
      );
      const distance = (random() < 0.5 ? -1 : 1) * (0.1 + random() * 8);
      const moved = offsetContour(contour, distance);
      expect(moved).toHaveLength(1);
      const rectangular = (width + 2 * distance) * (height + 2 * distance);
      const rounding = distance > 0 ? (4 - Math.PI) * distance ** 2 : 0;
      // A bulge b over a chord c adds or takes 2/3 b c^2 / 2, and the chord of the offset is 2 d longer.
      const bowed = corners.reduce((sum, { bulge }) => sum + Math.abs(bulge) * (width + height + 20) ** 2, 0);
      const area = Math.abs(signedArea(moved[0] ?? []));
      expect(Math.abs(area - (rectangular - rounding))).toBeLessThan(bowed + 1e-6);
    }
  });
});

describe("offset, closed forms", () => {
  const motions: [string, (contour: Contour) => Contour, number][] = [
    ["as drawn", (contour) => contour, 1],
    ["turned", (contour) => rotate(contour, 33), 1],
    ["mirrored", mirrorX, 1],
    ["clockwise", reversed, 1],
    ["small", (contour) => scaled(contour, 0.01), 0.01],
    ["large", (contour) => scaled(rotate(contour, 77), 100), 100],
  ];
  const square = rectangle(0, 0, 10, 10);
  const rounded = roundedPolygon(square.map(({ x, y }) => ({ x, y, radius: 2 })));
  const cases: [string, Contour, number, number[]][] = [
    ["circle outwards", circle(origin, 5), 2, [49 * Math.PI]],
    ["circle inwards", circle(origin, 5), -2, [9 * Math.PI]],
    ["circle to nothing", circle(origin, 5), -5, []],
    ["circle past nothing", circle(origin, 5), -6, []],
    ["square outwards", square, 2, [100 + 80 + 4 * Math.PI]],
    ["square inwards", square, -2, [36]],
    ["square to nothing", square, -5, []],
    ["rounded square inwards by its radius", rounded, -2, [36]],
    ["rounded square inwards beyond its radius", rounded, -3, [16]],
    ["rounded square inwards within its radius", rounded, -1, [64 - (4 - Math.PI)]],
    ["slot to nothing", obround(origin, { x: 9, y: 0 }, 4), -2, []],
    ["slot inwards", obround(origin, { x: 9, y: 0 }, 4), -1.5, [9 + Math.PI / 4]],
    ["dumbbell pinched in two", dumbbell, -1.5, [49 + mouth(), 49 + mouth()]],
    ["dumbbell pinched exactly", dumbbell, -1, [66 - Math.PI / 2, 66 - Math.PI / 2]],
    [
      "keyhole mouth closed",
      keyhole,
      1.5,
      [20 * 10 + 1.5 * 60 + 1.5 * 1.5 * Math.PI - mouth(), -9 - mouth()],
    ],
  ];

  test.each(cases)("%s", (_, contour, distance, areas) => {
    for (const [, move, scale] of motions) {
      const source = move(contour);
      const results = offsetContour(source, distance * scale);
      for (const result of results) expect(contourFaults(result)).toEqual([]);
      const way = Math.sign(signedArea(source));
      const found = results.map((result) => (way * signedArea(result)) / scale ** 2).sort((p, q) => q - p);
      expect(found).toHaveLength(areas.length);
      for (const [index, expected] of [...areas].sort((p, q) => q - p).entries()) {
        expect(found[index]).toBeCloseTo(expected, 6);
      }
    }
  });

  /** The half discs about the two mouth corners overlap: the area between them and the top line y = 11.5 is not covered. */
  function mouth(): number {
    // Corners at x = 9 and 11, radius 1.5: a dip between the quarter arcs, 2 wide, deep to where they cross.
    const half = 1;
    const cover = (half * Math.sqrt(1.5 ** 2 - half ** 2)) / 2 + (1.5 ** 2 / 2) * Math.asin(half / 1.5);
    return 2 * (half * 1.5 - cover);
  }

  test("arcs stay concentric arcs, circles circles", () => {
    const [larger] = offsetContour(circle({ x: 3, y: 4 }, 5), 1.25);
    expect(asCircle(larger ?? [])?.radius).toBeCloseTo(6.25, 12);
    expect(asCircle(larger ?? [])?.center.y).toBeCloseTo(4, 12);
    const [slot] = offsetContour(obround(origin, { x: 9, y: 0 }, 4), 0.1);
    expect(slot).toHaveLength(4);
  });

  test("sharp corners: a square stays a square, an acute tip stays round", () => {
    const [grown] = offsetContour(square, 2, "sharp");
    expect(grown).toHaveLength(4);
    expect(signedArea(grown ?? [])).toBeCloseTo(196, 10);
    const needle = polygon([origin, { x: 20, y: 0 }, { x: 20, y: 1 }]);
    const [blunt] = offsetContour(needle, 1, "sharp");
    expect(blunt?.filter((vertex) => vertex.bulge !== 0)).toHaveLength(1);
  });

  test("sharp corners that would run into each other stay round", () => {
    // Two teeth of 60 degrees point at each other across 3 mm; their tips, 2 mm on, would cross, their round ends 1 mm on do not.
    const half = 2 / Math.sqrt(3);
    const jaws = polygon(
      [
        [0, 0],
        [20, 0],
        [20, 4],
        [10 + half, 4],
        [10, 6],
        [10 - half, 4],
        [4, 4],
        [4, 11],
        [10 - half, 11],
        [10, 9],
        [10 + half, 11],
        [20, 11],
        [20, 15],
        [0, 15],
      ].map(([x = 0, y = 0]) => ({ x, y })),
    );
    const [sharp, ...none] = offsetContour(jaws, 1, "sharp");
    expect(none).toEqual([]);
    expect(contourFaults(sharp ?? [])).toEqual([]);
    expect(offsetContour(jaws, 1)[0]).toEqual(sharp);
    expect(offsetContour(jaws, 0.5, "sharp")[0]).not.toEqual(offsetContour(jaws, 0.5)[0]);
  });

  test("there and back: growing sharply and shrinking returns the contour", () => {
    const random = seeded(31);
    let compared = 0;
    for (let round = 0; round < 120; round++) {
      const contour =
        round % 2
          ? randomStar(random, origin, 20)
          : rotate(randomPlateShape(random, origin, 20), 360 * random());
      const [grown, ...more] = offsetContour(contour, 0.1, "sharp");
      if (more.length > 0 || grown === undefined || hasBluntTip(contour)) continue;
      const [back] = offsetContour(grown, -0.1, "sharp");
      expectSame(back ?? [], contour);
      compared++;
    }
    expect(compared).toBeGreaterThan(80);
  });
});

/** A corner so acute that it stays round, and does not come back as a corner. */
function hasBluntTip(contour: Contour): boolean {
  const pieces = segments(contour);
  return pieces.some((piece, index) => {
    const [a, b] = [tangentAt(piece, 1), tangentAt(pieces[(index + 1) % pieces.length] ?? piece, 0)];
    return 1 / Math.cos(Math.acos(a.x * b.x + a.y * b.y) / 2) > 3.99;
  });
}

function expectSame(back: Contour, contour: Contour): void {
  expect(back).toHaveLength(contour.length);
  const first = contour[0] ?? { x: 0, y: 0, bulge: 0 };
  const start = back.findIndex((vertex) => Math.hypot(vertex.x - first.x, vertex.y - first.y) < 1e-9);
  for (const [index, vertex] of contour.entries()) {
    const twin = back[(start + index) % back.length] ?? first;
    expect(Math.hypot(twin.x - vertex.x, twin.y - vertex.y)).toBeLessThan(1e-9);
    expect(Math.abs(twin.bulge - vertex.bulge)).toBeLessThan(1e-9);
  }
}

describe("offset of random shapes", () => {
  /** Every point of a true offset is exactly `distance` away, on the right side. */
  function expectParallel(source: Region, results: readonly Region[], distance: number): void {
    const contours = [source.outer, ...source.openings];
    for (const result of results) {
      expect(regionFaults(result)).toEqual([]);
      for (const contour of [result.outer, ...result.openings]) {
        for (const point of alongCurve(contour, 1.5)) {
          const away = Math.min(...contours.map((other) => pointDistance(other, point)));
          expect(Math.abs(away - Math.abs(distance))).toBeLessThan(TOLERANCE);
        }
      }
    }
  }

  function expectJstsAgrees(source: Region, results: readonly Region[], distance: number): void {
    const expected = buffered(shapeOf([source], 1e-4), distance).getArea();
    const length = regionLength(source) + results.reduce((sum, result) => sum + regionLength(result), 0);
    // 64 chords per quarter: 7.5e-5 of the distance; plus the chord error of the source.
    expect(Math.abs(area(results) - expected)).toBeLessThan(
      (2e-4 + 1e-4 * Math.abs(distance)) * length + 1e-6,
    );
  }

  test("stars and plate shapes, outwards and inwards", () => {
    const random = seeded(41);
    for (let round = 0; round < 70; round++) {
      const contour =
        round % 2
          ? randomStar(random, origin, 20)
          : rotate(randomPlateShape(random, origin, 20), 360 * random());
      const distance = (random() - 0.6) * 10;
      const source = solid(contour);
      const results = offsetRegion(source, distance);
      expectParallel(source, results, distance);
      if (round % 3 === 0) expectJstsAgrees(source, results, distance);
    }
  });

  test("whole plates with openings cut into each other", () => {
    const random = seeded(42);
    for (let round = 0; round < 4; round++) {
      const cuts = Array.from({ length: 12 }, () =>
        solid(rotate(randomPlateShape(random, { x: random() * 60, y: random() * 40 }, 10), 20 * random())),
      );
      for (const source of subtract([solid(rectangle(0, 0, 60, 40))], cuts)) {
        for (const distance of [-2 * random(), 2 * random(), -0.1, 0.1]) {
          const results = offsetRegion(source, distance);
          expectParallel(source, results, distance);
          if (round % 4 === 0) expectJstsAgrees(source, results, distance);
        }
      }
    }
  });

  test("shapes on a grid offset by grid distances, full of vanishing arcs and exact pinches", () => {
    const random = seeded(43);
    const whole = (most: number) => Math.floor(random() * most);
    for (let round = 0; round < 60; round++) {
      const turn = round % 2 ? 360 * random() : 0;
      const parts = Array.from({ length: 2 + whole(4) }, () => {
        const [x, y] = [whole(8), whole(8)];
        const kind = whole(3);
        if (kind === 0) return circle({ x, y }, 1 + whole(3));
        if (kind === 1) return rectangle(x, y, 1 + whole(6), 1 + whole(6));
        return obround({ x, y }, { x: x + 1 + whole(5), y }, 2 * (1 + whole(2)));
      });
      for (const source of unite(parts.map((part) => solid(rotate(part, turn))))) {
        const distance = (1 + whole(4)) / 2;
        for (const signed of [distance, -distance]) {
          const results = offsetRegion(source, signed);
          expectParallel(source, results, signed);
          if (round % 8 === 0) expectJstsAgrees(source, results, signed);
        }
      }
    }
  });

  test("contains the contour when grown, lies in it when shrunk", () => {
    const random = seeded(44);
    for (let round = 0; round < 40; round++) {
      const contour = randomStar(random, origin, 20);
      const [grown] = offsetContour(contour, 1);
      for (const point of alongCurve(contour, 0.5)) expect(locate(grown ?? [], point)).toBe("inside");
      for (const shrunk of offsetContour(contour, -1)) {
        for (const point of alongCurve(shrunk, 0.5)) expect(locate(contour, point)).toBe("inside");
      }
    }
  });

  test("a polygon of a thousand tiny sides, as imports bring them", () => {
    const wave: Point[] = Array.from({ length: 1000 }, (_, k) => {
      const angle = (k * Math.PI) / 500;
      const radius = 50 + 8 * Math.sin(7 * angle);
      return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
    });
    const source = solid(polygon(wave));
    for (const distance of [0.1, 3, 20, -0.1, -3, -20]) {
      const results = offsetRegion(source, distance);
      expectJstsAgrees(source, results, distance);
      for (const result of results) expect(regionFaults(result)).toEqual([]);
    }
  });

  test("a circle flattened finely offsets like a circle", () => {
    for (const error of [0.1, 1e-3]) {
      const source = polygon(flatten(circle(origin, 20), error, "on"));
      const [grown] = offsetContour(source, 5);
      expect(Math.abs(contourLength(grown ?? []) - contourLength(source) - 10 * Math.PI)).toBeLessThan(1e-6);
      const [shrunk] = offsetContour(source, -5);
      expect(signedArea(shrunk ?? []) / (225 * Math.PI)).toBeCloseTo(1, error > 0.01 ? 1 : 3);
    }
  });

  test("a plate of 60 openings is offset in tens of milliseconds", () => {
    const plate = solid(
      rectangle(0, 0, 400, 300),
      ...Array.from({ length: 60 }, (_, k) =>
        obround(
          { x: 20 + 35 * (k % 10), y: 20 + 45 * Math.floor(k / 10) },
          { x: 30 + 35 * (k % 10), y: 25 + 45 * Math.floor(k / 10) },
          12,
        ),
      ),
    );
    expect(milliseconds(() => offsetRegion(plate, 1))).toBeLessThan(100);
  });
});
