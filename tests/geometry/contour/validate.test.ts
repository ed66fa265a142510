import {
  type Contour,
  circle,
  clockwise,
  contourFaults,
  obround,
  rectangle,
  regionFaults,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import { randomPlateShape, randomStar, seeded } from "./shapes.js";

const at = (...points: readonly [number, number, number?][]): Contour =>
  points.map(([x, y, bulge = 0]) => ({ x, y, bulge }));
const what = (contour: Contour) => [...new Set(contourFaults(contour).map((fault) => fault.what))];

describe("contour faults", () => {
  test("sound contours have none", () => {
    const random = seeded(3);
    for (let round = 0; round < 300; round++) {
      const make = round % 2 ? randomStar : randomPlateShape;
      expect(contourFaults(make(random, { x: 5, y: 5 }, 20))).toEqual([]);
    }
    expect(what(obround({ x: 0, y: 0 }, { x: 3, y: 0 }, 1))).toEqual([]);
  });

  test("each fault is named", () => {
    expect(what(at([0, 0], [Number.NaN, 1], [2, 2]))).toEqual(["not-finite"]);
    expect(what(at([0, 0], [1, 1, Number.POSITIVE_INFINITY], [2, 2]))).toEqual(["not-finite"]);
    expect(what(at([0, 0], [4, 0]))).toEqual(["too-few-vertices"]);
    expect(what(at([0, 0, 1]))).toEqual(["too-few-vertices"]);
    expect(what([])).toEqual(["too-few-vertices"]);
    expect(what(at([0, 0], [0, 0], [4, 0], [4, 4]))).toEqual(["no-length"]);
    expect(what(at([0, 0], [4, 4], [4, 0], [0, 4]))).toEqual(["meets-itself"]);
    expect(contourFaults(at([0, 0], [4, 4], [4, 0], [0, 4]))[0]?.at).toEqual({ x: 2, y: 2 });
    expect(what(at([0, 0], [4, 0], [2, 0], [2, 4]))).toContain("doubled-edge");
    expect(what(at([0, 0, 0.5], [4, 0, -0.5]))).toEqual(["doubled-edge"]);
    expect(what(at([0, 0], [4, 0], [2, 2], [4, 4], [0, 4], [2, 2]))).toEqual(["meets-itself"]);
    // The arc bulges across the opposite side.
    expect(what(at([0, 0, -1], [10, 0], [10, 2], [0, 2]))).toEqual(["meets-itself"]);
  });
});

describe("region faults", () => {
  const plate = rectangle(0, 0, 100, 60);
  const hole = (x: number, radius: number) => clockwise(circle({ x, y: 30 }, radius));
  const faults = (openings: Contour[]) =>
    regionFaults({ outer: plate, openings }).map(({ what, contour }) => [what, contour]);

  test("openings inside, disjoint, touching at a point: sound", () => {
    expect(faults([hole(20, 5), hole(50, 10)])).toEqual([]);
    expect(faults([hole(20, 5), hole(30, 5)])).toEqual([]);
    expect(faults([hole(5, 5)])).toEqual([]);
  });

  test("each fault is named with its contour", () => {
    expect(faults([hole(0, 5)])).toEqual([["opening-not-inside", 0]]);
    expect(faults([hole(200, 5)])).toEqual([["opening-not-inside", 0]]);
    expect(faults([clockwise(rectangle(0, 10, 5, 5))])).toEqual([["opening-not-inside", 0]]);
    expect(faults([hole(20, 5), hole(24, 5)])).toEqual([["openings-overlap", 1]]);
    expect(faults([hole(20, 15), hole(20, 5)])).toEqual([["openings-overlap", 1]]);
    expect(faults([hole(20, 5), hole(20, 15)])).toEqual([["openings-overlap", 1]]);
    expect(faults([clockwise(rectangle(5, 5, 5, 5)), clockwise(rectangle(10, 5, 5, 5))])).toEqual([
      ["openings-overlap", 1],
    ]);
    expect(faults([circle({ x: 20, y: 20 }, 5)])).toEqual([["wrong-way-round", 0]]);
    expect(regionFaults({ outer: clockwise(plate), openings: [] })).toEqual([
      { what: "wrong-way-round", contour: "outline", at: { x: 0, y: 0, bulge: 0 } },
    ]);
  });
});
