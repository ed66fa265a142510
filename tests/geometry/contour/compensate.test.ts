import {
  asCircle,
  bounds,
  type Contour,
  circle,
  clockwise,
  compensateRegion,
  mirrorX,
  obround,
  offsetContour,
  polygon,
  type Region,
  rectangle,
  regionArea,
  regionFaults,
  rotate,
  roundedPolygon,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { randomPlateShape, seeded } from "./shapes.js";

const solid = (outer: Contour, ...openings: Contour[]): Region => ({
  outer,
  openings: openings.map(clockwise),
});
const size = (contour: Contour | undefined) => {
  const box = bounds(contour ?? []);
  return [box.maxX - box.minX, box.maxY - box.minY];
};
const points = (...list: [number, number][]): Contour => polygon(list.map(([x, y]) => ({ x, y })));
const compensated = (region: Region, kerf: number, corners: "round" | "sharp" = "round"): Region => {
  const result = compensateRegion(region, kerf, corners);
  if (!result.ok) throw new Error(JSON.stringify(result.faults));
  return result.region;
};
const faults = (region: Region, kerf: number) => {
  const result = compensateRegion(region, kerf);
  return result.ok ? [] : result.faults;
};

describe("the worked kerf example: kerf 0.2, drawn 2.0 x 4.0, the opening comes out 2.2 x 4.2, the piece 1.8 x 3.8", () => {
  const drawn = rectangle(0, 0, 2, 4);

  test("a cut along the drawn line takes half a kerf on both sides", () => {
    const [opening] = offsetContour(drawn, 0.1);
    const [piece] = offsetContour(drawn, -0.1);
    expect(size(opening).map((side) => side.toFixed(9))).toEqual(["2.200000000", "4.200000000"]);
    expect(size(piece).map((side) => side.toFixed(9))).toEqual(["1.800000000", "3.800000000"]);
  });

  test("compensated, the piece comes out 2.0 x 4.0 and so does the opening", () => {
    const plate = solid(rectangle(-10, -10, 30, 30), drawn);
    for (const corners of ["round", "sharp"] as const) {
      expect(size(compensated(solid(drawn), 0.2, corners).outer).map((side) => side.toFixed(9))).toEqual([
        "2.200000000",
        "4.200000000",
      ]);
      const [path] = compensated(plate, 0.2, corners).openings;
      expect(size(path).map((side) => side.toFixed(9))).toEqual(["1.800000000", "3.800000000"]);
      expect(size(offsetContour(path ?? [], 0.1)[0]).map((side) => side.toFixed(9))).toEqual([
        "2.000000000",
        "4.000000000",
      ]);
    }
  });
});

describe("compensation", () => {
  const plate = solid(
    roundedPolygon(rectangle(0, 0, 120, 80).map(({ x, y }) => ({ x, y, radius: 6 }))),
    circle({ x: 20, y: 20 }, 2.15),
    obround({ x: 40, y: 20 }, { x: 60, y: 30 }, 5.5),
    roundedPolygon(rectangle(70, 20, 40, 40).map(({ x, y }) => ({ x, y, radius: 4 }))),
  );

  test("arcs stay arcs, circles circles; outline and openings move apart", () => {
    const path = compensated(plate, 3.175);
    expect(regionFaults(path)).toEqual([]);
    expect(asCircle(path.openings[0] ?? [])?.radius).toBeCloseTo(2.15 - 1.5875, 10);
    expect(path.openings.map((opening) => opening.length)).toEqual([2, 4, 8]);
    expect(path.outer).toHaveLength(8);
    expect(regionArea(path)).toBeGreaterThan(regionArea(plate));
  });

  test("the cut gives the plate back: path less half a kerf, within 1e-9", () => {
    const random = seeded(71);
    for (let round = 0; round < 40; round++) {
      const outer = rotate(randomPlateShape(random, { x: 0, y: 0 }, 60), 360 * random());
      const path = compensated(solid(outer), 0.2, "sharp");
      const [back] = offsetContour(path.outer, -0.1, "sharp");
      expectSame(back ?? [], outer);
      const frame = rectangle(-100, -100, 200, 200);
      const [opening] = compensated(solid(frame, outer), 0.2, "sharp").openings;
      const [cut] = offsetContour(opening ?? [], 0.1, "sharp");
      expectSame(cut ?? [], clockwise(outer));
    }
  });

  test("no kerf changes nothing", () => {
    expect(compensated(plate, 0)).toEqual(plate);
    expect(() => compensateRegion(plate, -1)).toThrow(RangeError);
    expect(() => compensateRegion(plate, Number.NaN)).toThrow(RangeError);
  });

  test.each([
    ["as drawn", (contour: Contour) => contour],
    ["turned", (contour: Contour) => rotate(contour, 40)],
    ["mirrored", mirrorX],
  ])("faults name the contour and the place, %s", (_, move) => {
    const place = (x: number, y: number) => move([{ x, y, bulge: 0 }])[0] ?? { x, y };
    const frame = move(rectangle(-50, -50, 100, 100));
    // A hole smaller than the cutter.
    const lost = faults({ outer: frame, openings: [clockwise(move(circle({ x: 3, y: 4 }, 1.5)))] }, 3.175);
    expect(lost).toMatchObject([{ contour: 0, what: "vanishes" }]);
    expect(lost[0]?.at.x).toBeCloseTo(place(3, 4).x, 9);
    // Two chambers joined by a passage 2 mm wide, its middle at (13, 5).
    const dumbbell = points(
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
    );
    const pinched = faults({ outer: frame, openings: [clockwise(move(dumbbell))] }, 3);
    expect(pinched.map((fault) => fault.what)).toContain("pinches");
    expect(pinched.every((fault) => fault.contour === 0)).toBe(true);
    expect(
      Math.min(...pinched.map(({ at }) => Math.hypot(at.x - place(13, 5).x, at.y - place(13, 5).y))),
    ).toBeLessThan(1.5);
    // A notch 2 mm wide and 10 mm deep in the outline: it neither vanishes nor splits, the cutter just cannot enter.
    const notched = move(points([0, 0], [40, 0], [40, 20], [21, 20], [21, 10], [19, 10], [19, 20], [0, 20]));
    const shut = faults({ outer: notched, openings: [] }, 3);
    expect(shut.map(({ contour, what }) => [contour, what])).toContainEqual(["outline", "pinches"]);
    expect(
      Math.hypot((shut[0]?.at.x ?? 0) - place(20, 12).x, (shut[0]?.at.y ?? 0) - place(20, 12).y),
    ).toBeLessThan(4);
    expect(faults({ outer: notched, openings: [] }, 1.9)).toEqual([]);
    // A mouth of 2 mm that closes a chamber behind it.
    const keyhole = move(
      points(
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
      ),
    );
    expect(faults({ outer: keyhole, openings: [] }, 3).map((fault) => fault.what)).toContain("pinches");
  });
});

function expectSame(back: Contour, contour: Contour): void {
  expect(back).toHaveLength(contour.length);
  for (const vertex of contour) {
    const away = Math.min(
      ...back.map(
        (twin) => Math.hypot(twin.x - vertex.x, twin.y - vertex.y) + Math.abs(twin.bulge - vertex.bulge),
      ),
    );
    expect(away).toBeLessThan(1e-9);
  }
}
