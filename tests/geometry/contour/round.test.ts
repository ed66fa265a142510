import {
  type Contour,
  circle,
  clockwise,
  contourFaults,
  counterClockwise,
  locate,
  mirrorX,
  obround,
  polygon,
  type Region,
  rectangle,
  regionArea,
  regionFaults,
  rotate,
  roundCorners,
  roundedPolygon,
  roundInsideCorners,
  type Segment,
  segments,
  signedArea,
  subtract,
  tangentAt,
  unite,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { alongCurve, randomPlateShape, randomStar, seeded } from "./shapes.js";

const solid = (outer: Contour, ...openings: Contour[]): Region => ({
  outer,
  openings: openings.map(clockwise),
});
const points = (...list: [number, number][]): Contour => polygon(list.map(([x, y]) => ({ x, y })));
const scaled = (contour: Contour, by: number): Contour =>
  contour.map(({ x, y, bulge }) => ({ x: x * by, y: y * by, bulge }));

const motions: [string, (contour: Contour) => Contour, number][] = [
  ["as drawn", (contour) => contour, 1],
  ["turned", (contour) => rotate(contour, 33), 1],
  ["mirrored", mirrorX, 1],
  ["small", (contour) => scaled(contour, 0.01), 0.01],
  ["large", (contour) => scaled(contour, 100), 100],
];

describe.each(motions)("rounding %s", (_, move, scale) => {
  const arcs = (contour: Contour) => segments(contour).filter((piece) => piece.kind === "arc");
  const radii = (contour: Contour) => arcs(contour).map((piece) => piece.radius / scale);

  test("a window of a plate: its corners, not those of the outline", () => {
    const plate = {
      outer: move(rectangle(0, 0, 100, 60)),
      openings: [clockwise(move(rectangle(20, 20, 30, 20)))],
    };
    const rounded = roundInsideCorners(plate, 3 * scale);
    expect(rounded.outer).toEqual(plate.outer);
    expect(rounded.openings[0]).toHaveLength(8);
    for (const radius of radii(rounded.openings[0] ?? [])) expect(radius).toBeCloseTo(3, 9);
    expect((regionArea(rounded) - regionArea(plate)) / scale ** 2).toBeCloseTo((4 - Math.PI) * 9, 8);
  });

  test("a notch in an outline: its two inner corners", () => {
    const notched = move(points([0, 0], [40, 0], [40, 30], [30, 30], [30, 20], [10, 20], [10, 30], [0, 30]));
    const rounded = roundInsideCorners({ outer: notched, openings: [] }, 2 * scale).outer;
    expect(rounded).toHaveLength(10);
    expect((signedArea(rounded) - signedArea(notched)) / scale ** 2).toBeCloseTo(
      2 * (1 - Math.PI / 4) * 4,
      8,
    );
    const soft = roundCorners(notched, 2 * scale, "convex");
    expect(arcs(soft)).toHaveLength(6);
    expect(arcs(roundCorners(notched, 2 * scale, "all"))).toHaveLength(8);
  });

  test("a window too narrow for the radius gets full ends: an obround", () => {
    const slot = clockwise(move(rectangle(0, 0, 20, 4)));
    const [rounded] = roundInsideCorners(
      { outer: move(rectangle(-10, -10, 60, 60)), openings: [slot] },
      3 * scale,
    ).openings;
    for (const radius of radii(rounded ?? [])) expect(radius).toBeCloseTo(2, 6);
    expect(-signedArea(rounded ?? []) / scale ** 2).toBeCloseTo(64 + 4 * Math.PI, 5);
    expect(rounded).toHaveLength(6);
  });

  test("tight arcs are widened, arcs wide enough stay, a round hole stays", () => {
    const window = roundedPolygon(
      rectangle(0, 0, 20, 12).map(({ x, y }, index) => ({ x, y, radius: index % 2 ? 1 : 4 })),
    );
    const region = {
      outer: move(rectangle(-20, -20, 60, 60)),
      openings: [clockwise(move(window)), clockwise(move(circle({ x: 30, y: 0 }, 1)))],
    };
    const rounded = roundInsideCorners(region, 3 * scale);
    expect(
      radii(rounded.openings[0] ?? [])
        .map((radius) => Math.round(radius * 1e6) / 1e6)
        .sort(),
    ).toEqual([3, 3, 4, 4]);
    expect(rounded.openings[1]).toEqual(region.openings[1]);
  });

  test("corners between arcs and lines: a ring sector", () => {
    const disc = solid(move(circle({ x: 0, y: 0 }, 30)));
    const sector = subtract(
      [disc],
      [
        solid(move(circle({ x: 0, y: 0 }, 12))),
        solid(move(rectangle(-40, -40, 80, 40))),
        solid(move(rectangle(-40, -1, 40, 80))),
      ],
    );
    expect(sector).toHaveLength(1);
    const window = clockwise(sector[0]?.outer ?? []);
    const [rounded] = roundInsideCorners(
      { outer: move(rectangle(-50, -50, 100, 100)), openings: [window] },
      2.5 * scale,
    ).openings;
    expect(contourFaults(rounded ?? [])).toEqual([]);
    expect(radii(rounded ?? []).filter((radius) => Math.abs(radius - 2.5) < 1e-9)).toHaveLength(4);
    expectSmooth(segments(rounded ?? []));
  });
});

function expectSmooth(pieces: readonly Segment[]): void {
  for (const [index, piece] of pieces.entries()) {
    const next = pieces[(index + 1) % pieces.length] ?? piece;
    const [a, b] = [tangentAt(piece, 1), tangentAt(next, 0)];
    expect(Math.abs(a.x * b.y - a.y * b.x)).toBeLessThan(1e-7);
  }
}

describe("rounding what is hard", () => {
  test("a fillet that would run into a far part of the contour shrinks until it does not", () => {
    // A spike of material reaches into the corner of the opening.
    const opening = points([0, 0], [20, 0], [20, 20], [19.9, 20], [1, 1.5], [19, 20], [0, 20]);
    const rounded = roundCorners(opening, 6, "convex");
    expect(contourFaults(rounded)).toEqual([]);
    expect(signedArea(rounded)).toBeLessThan(signedArea(opening));
  });

  test("random windows never break, and material is only added", () => {
    const random = seeded(61);
    for (let round = 0; round < 120; round++) {
      const origin = { x: 0, y: 0 };
      const parts = [
        randomStar(random, origin, 20),
        rotate(randomPlateShape(random, origin, 25), 360 * random()),
      ];
      const [union] = round % 3 ? parts.map((part) => solid(part)) : unite(parts.map((part) => solid(part)));
      const opening = counterClockwise(union?.outer ?? []);
      const plate = { outer: rectangle(-60, -60, 120, 120), openings: [clockwise(opening)] };
      const rounded = roundInsideCorners(plate, 0.3 + 4 * random());
      expect(regionFaults(rounded)).toEqual([]);
      expect(regionArea(rounded)).toBeGreaterThanOrEqual(regionArea(plate) - 1e-9);
      for (const point of alongCurve(rounded.openings[0] ?? [], 2))
        expect(locate(opening, point)).not.toBe("outside");
    }
  });

  test("an obround end as tight as its sides allow stays as it is", () => {
    const region = solid(rectangle(-10, -10, 40, 20), obround({ x: 0, y: 0 }, { x: 10, y: 0 }, 4));
    expect(roundInsideCorners(region, 5).openings[0]).toHaveLength(4);
    expect(() => roundInsideCorners(region, -1)).toThrow(RangeError);
    expect(() => roundCorners(region.outer, Number.NaN, "all")).toThrow(RangeError);
  });
});
