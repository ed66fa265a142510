import { circle, polygon, rectangle, reversed } from "@keelcut/geometry";
import { type NestResult, type PlacedPart, verify } from "@keelcut/nesting";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../../packages/nesting/src/random.js";
import { independentFaults } from "./independent-check.js";
import { block, job, part, placed, solid, stock } from "./jobs.js";
import { randomJob } from "./random-jobs.js";

/** A ring with a 30 mm hole, discs of 10 mm, blocks with one square notch in the corner. */
const ring = { outer: circle({ x: 0, y: 0 }, 40), openings: [reversed(circle({ x: 0, y: 0 }, 30))] };
const disc = solid(circle({ x: 0, y: 0 }, 10));
const notched = solid(
  polygon([
    { x: 0, y: 0 },
    { x: 40, y: 0 },
    { x: 40, y: 20 },
    { x: 20, y: 20 },
    { x: 20, y: 40 },
    { x: 0, y: 40 },
  ]),
);

const base = job({
  clearance: 3,
  edgeMargin: 5,
  parts: [
    part("ring", ring),
    part("disc", disc, { demand: 2 }),
    part("notched", notched, { demand: 2, rotations: [0, 90, 180, 270] }),
  ],
  stock: [
    stock("sheet", rectangle(0, 0, 300, 100), {
      keepOuts: [rectangle(250, 0, 50, 50)],
      available: 1,
      cost: 7,
    }),
  ],
});

describe("plates that touch within their arcs", () => {
  const close = job({
    clearance: 2,
    edgeMargin: 0,
    parts: [part("block", block(20, 10)), part("disc", solid(circle({ x: 0, y: 0 }, 3)))],
    stock: [stock("s", rectangle(0, 0, 40, 40), { available: 1 })],
  });
  const faults = (x: number, y: number): string[] =>
    verify(close, {
      sheets: [{ stock: "s", times: 1, placements: [placed("block", 10, 10), placed("disc", x, y)] }],
      unplaced: [],
      cost: 1,
      yield: (200 + Math.PI * 9) / 1600,
      steps: 1,
    }).map(({ kind }) => kind);

  it.each([
    ["the side of a plate", 20, 23],
    ["the side of a plate, crossing it no deeper than rounding", 20, 23 - 5e-10],
  ])("are closer than any clearance: %s", (_, x, y) => {
    expect(faults(x, y)).toHaveLength(1);
  });

  it("are fine at their clearance", () => {
    expect(faults(20, 25)).toEqual([]);
  });
});

const good: readonly PlacedPart[] = [
  placed("ring", 45, 45),
  placed("disc", 45, 45),
  placed("disc", 98, 85),
  placed("notched", 120, 10),
  placed("notched", 183, 53, 180),
];

function result(placements: readonly PlacedPart[], over: Partial<NestResult> = {}): NestResult {
  const areas: Record<string, number> = {
    ring: Math.PI * (40 ** 2 - 30 ** 2),
    disc: Math.PI * 100,
    notched: 1200,
  };
  const area = placements.reduce((sum, { part: id }) => sum + (areas[id] ?? 0), 0);
  return {
    sheets: [{ stock: "sheet", times: 1, placements }],
    unplaced: [],
    cost: 7,
    yield: area / 30000,
    steps: 1,
    ...over,
  };
}

function changed(index: number, to: PlacedPart): NestResult {
  return result(good.map((placement, at) => (at === index ? to : placement)));
}

const kinds = (found: NestResult, of = base): string[] =>
  verify(of, found).map((violation) => violation.kind);

describe("verify", () => {
  it("accepts a sound layout with a plate in an opening and interlocking plates", () => {
    expect(verify(base, result(good))).toEqual([]);
  });

  it("catches a thousandth of a millimetre too close, in an opening", () => {
    // The disc may move off centre by 30 - 10 - 3 = 17.
    expect(kinds(changed(1, placed("disc", 45 + 17, 45)))).toEqual([]);
    const found = verify(base, changed(1, placed("disc", 45 + 17.001, 45)));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ kind: "too-close", sheet: 0, placements: [0, 1], limit: 3 });
    expect(found[0]?.measured).toBeCloseTo(2.999, 9);
  });

  it("catches a thousandth too close between straight edges", () => {
    // Notch against notch: the second block's inner corner edges run 3 mm from the first one's.
    expect(kinds(changed(4, placed("notched", 183, 53, 180)))).toEqual([]);
    expect(kinds(changed(4, placed("notched", 182.999, 53, 180)))).toEqual(["too-close"]);
    expect(kinds(changed(4, placed("notched", 183, 52.999, 180)))).toEqual(["too-close"]);
  });

  it("catches an overlap, also of a plate swallowed whole and of equal plates in one place", () => {
    expect(kinds(changed(1, placed("disc", 45 + 35, 45)))).toEqual(["overlap"]);
    expect(kinds(changed(2, placed("disc", 130, 20)))).toEqual(["overlap"]);
    expect(kinds(changed(2, placed("disc", 45, 45)))).toEqual(["overlap"]);
  });

  it("catches a plate in the margin, across the edge, and beyond it", () => {
    expect(kinds(changed(0, placed("ring", 44.999, 45)))).toContain("edge-margin");
    expect(kinds(changed(2, placed("disc", 98, 95)))).toEqual(["outside"]);
    expect(kinds(changed(2, placed("disc", 98, 400)))).toEqual(["outside"]);
    // A plate around the whole sheet touches nothing of it.
    const around = job({
      parts: [part("frame", block(50, 50))],
      stock: [stock("s", rectangle(10, 10, 20, 20))],
    });
    const found = {
      ...result([]),
      sheets: [{ stock: "s", times: 1, placements: [placed("frame", 0, 0)] }],
      cost: 1,
      yield: 2500 / 400,
    };
    expect(kinds(found, around)).toEqual(["outside"]);
  });

  it("catches a plate near or on a keep-out", () => {
    expect(kinds(changed(2, placed("disc", 275, 63)))).toEqual([]);
    expect(kinds(changed(2, placed("disc", 275, 62.999)))).toEqual(["keep-out"]);
    expect(kinds(changed(2, placed("disc", 275, 25)))).toEqual(["keep-out"]);
  });

  it("catches a wrong rotation and a plate upside down", () => {
    expect(kinds(changed(4, placed("notched", 183, 53, -180)))).toEqual([]);
    expect(kinds(changed(4, placed("notched", 183.1, 53.1, 180.001)))).toEqual(["rotation"]);
    expect(kinds(changed(1, placed("disc", 45, 45, 0, true)))).toEqual(["mirrored"]);
  });

  it("catches wrong counts", () => {
    expect(kinds(result(good.slice(1)))).toEqual(["count"]);
    const spare = { part: "disc", count: 1, reason: "stock-used-up" as const, message: "" };
    expect(kinds(result(good, { unplaced: [spare] }))).toEqual(["count"]);
    expect(kinds(result(good.slice(0, 2).concat(good.slice(3)), { unplaced: [spare] }))).toEqual([]);
    expect(kinds(result(good, { unplaced: [{ ...spare, count: 0 }] }))).toEqual(["count"]);
  });

  it("catches more sheets than there are, unknown names, numbers that are none", () => {
    const twice = { ...result(good), sheets: [{ stock: "sheet", times: 2, placements: good }], cost: 14 };
    expect(kinds(twice)).toEqual(["count", "count", "count", "stock-used"]);
    expect(kinds({ ...result(good), sheets: [{ stock: "sheet", times: 1.5, placements: good }] })).toContain(
      "times",
    );
    expect(kinds({ ...result(good), sheets: [{ stock: "other", times: 1, placements: good }] })).toContain(
      "unknown-stock",
    );
    expect(kinds(changed(1, placed("dsc", 45, 45)))).toContain("unknown-part");
    expect(kinds(changed(1, placed("disc", Number.NaN, 45)))).toContain("not-finite");
    expect(kinds(changed(1, placed("disc", 45, 45, Infinity)))).toContain("not-finite");
  });

  it("catches totals that do not add up", () => {
    expect(kinds(result(good, { cost: 6.999 }))).toEqual(["totals"]);
    expect(kinds(result(good, { yield: 0.9 }))).toEqual(["totals"]);
  });
});

describe("verify without clearance", () => {
  const touching = job({
    parts: [part("a", notched, { demand: 2, rotations: [0, 180] })],
    stock: [stock("s", rectangle(0, 0, 60, 60))],
  });
  const laid = (x: number, y: number): NestResult => ({
    ...result([]),
    sheets: [{ stock: "s", times: 1, placements: [placed("a", 0, 0), placed("a", x, y, 180)] }],
    cost: 1,
    yield: 2400 / 3600,
  });

  it("lets plates touch along edges, each other and the sheet's", () => {
    expect(kinds(laid(60, 40), touching)).toEqual([]);
    expect(kinds(laid(60 - 5e-7, 40 - 5e-7), touching)).toEqual([]);
  });

  it("catches a hundredth of a micrometre too deep", () => {
    expect(kinds(laid(60 - 1e-5, 40), touching)).toEqual(["overlap"]);
    expect(kinds(laid(60, 40 - 1e-5), touching)).toEqual(["overlap", "outside"]);
    expect(kinds(laid(60 + 1e-5, 40), touching)).toEqual(["outside"]);
  });

  it("catches equal plates in one place and discs that overlap a little", () => {
    const discs = job({
      parts: [part("a", disc, { demand: 2 })],
      stock: [stock("s", rectangle(0, 0, 60, 60))],
    });
    const at = (x: number): NestResult => ({
      ...laid(0, 0),
      sheets: [{ stock: "s", times: 1, placements: [placed("a", 20, 20), placed("a", x, 20)] }],
      yield: (Math.PI * 200) / 3600,
    });
    expect(kinds(at(20), discs)).toEqual(["overlap"]);
    expect(kinds(at(40), discs)).toEqual([]);
    expect(kinds(at(40 - 1e-4), discs)).toEqual(["overlap"]);
  });

  it("lets a plate fill an opening exactly", () => {
    const frame = { outer: rectangle(0, 0, 40, 40), openings: [reversed(rectangle(10, 10, 20, 20))] };
    const filled = job({
      parts: [part("frame", frame), part("core", block(20, 20))],
      stock: [stock("s", rectangle(0, 0, 40, 40))],
    });
    const at = (x: number): NestResult => ({
      ...laid(0, 0),
      sheets: [{ stock: "s", times: 1, placements: [placed("frame", 0, 0), placed("core", x, 10)] }],
      yield: 1,
    });
    expect(kinds(at(10), filled)).toEqual([]);
    expect(kinds(at(10.0001), filled)).toEqual(["overlap"]);
  });
});

describe("verify against an independent library", () => {
  it("agrees on plates thrown on a sheet at random, but for what the library flattens", () => {
    const random = seededRandom(7);
    const cutOff = polygon([
      { x: 0, y: 0 },
      { x: 500, y: 0 },
      { x: 500, y: 330 },
      { x: 330, y: 500 },
      { x: 0, y: 500 },
    ]);
    let sound = 0;
    let faulty = 0;
    for (let round = 0; round < 120; round++) {
      const parts = randomJob(round + 900).parts.map((one) => ({
        ...one,
        demand: 1,
        rotations: "any" as const,
        mirrorable: true,
      }));
      const clearance = random() * 6;
      const thrown = parts
        .slice(0, 3)
        .map(({ id }) =>
          placed(id, 130 + 240 * random(), 130 + 240 * random(), 360 * random(), random() < 0.5),
        );
      const of = job({
        clearance,
        edgeMargin: 8,
        parts: parts.slice(0, 3),
        stock: [stock("s", cutOff)],
      });
      const layout = (placements: readonly PlacedPart[]): NestResult => ({
        ...result([]),
        sheets: [{ stock: "s", times: 1, placements }],
      });
      const mine = verify(of, layout(thrown)).filter((violation) => violation.kind !== "totals");
      const theirs = independentFaults(of, layout(thrown));
      // The library's plates are up to 0.02 mm smaller each: what it refuses is wrong, what it lets pass by 0.05 is not.
      if (theirs.length > 0) expect({ round, mine: mine.length > 0 }).toEqual({ round, mine: true });
      const wider = independentFaults(
        { ...of, clearance: clearance + 0.05, edgeMargin: 8.05 },
        layout(thrown),
      );
      if (wider.length === 0) expect({ round, mine }).toEqual({ round, mine: [] });
      if (theirs.length > 0) faulty++;
      if (wider.length === 0) sound++;
    }
    expect(Math.min(sound, faulty)).toBeGreaterThan(20);
  });
});
