import { circle, polygon, type Region, rectangle, reversed, roundedPolygon } from "@keelcut/geometry";
import { type NestJob, NestJobError, type NestResult, nest, verify } from "@keelcut/nesting";
import { describe, expect, it } from "vitest";
import { independentFaults } from "./independent-check.js";
import { block, job, part, solid, stock } from "./jobs.js";

function copies(result: NestResult): number {
  return result.sheets.reduce((sum, sheet) => sum + sheet.times * sheet.placements.length, 0);
}

function withoutSteps({ steps, ...rest }: NestResult): Omit<NestResult, "steps"> {
  expect(steps).toBeGreaterThan(0);
  return rest;
}

async function packed(of: NestJob): Promise<NestResult> {
  const result = await nest(of);
  expect(verify(of, result)).toEqual([]);
  expect(independentFaults(of, result)).toEqual([]);
  return result;
}

/** The L of the sheet less one quarter. */
const corner = polygon([
  { x: 0, y: 0 },
  { x: 400, y: 0 },
  { x: 400, y: 100 },
  { x: 100, y: 100 },
  { x: 100, y: 300 },
  { x: 0, y: 300 },
]);

describe("exact fits", () => {
  it.each([0, 3.7])(
    "fills a sheet with as many rectangles as it is made for, clearance %d",
    async (clearance) => {
      const [columns, rows, width, height] = [6, 4, 61.3, 43.7];
      const sheet = rectangle(
        0,
        0,
        columns * width + (columns - 1) * clearance + 20,
        rows * height + (rows - 1) * clearance + 20,
      );
      const tiles = job({
        clearance,
        edgeMargin: 10,
        parts: [part("tile", block(width, height), { demand: 25 })],
        stock: [stock("s", sheet, { available: 1 })],
      });
      expect(copies(await packed(tiles))).toBe(24);
    },
  );

  it("lets a margin smaller than half the clearance be one", async () => {
    const tiles = job({
      clearance: 8,
      edgeMargin: 1,
      parts: [part("tile", block(50, 50), { demand: 5 })],
      stock: [stock("s", rectangle(0, 0, 110, 110), { available: 1 })],
    });
    expect(copies(await packed(tiles))).toBe(4);
  });

  it("lays a disc in an opening it just fits, where the chords alone would refuse it", async () => {
    const ring: Region = {
      outer: rectangle(-60, -60, 120, 120),
      openings: [reversed(rectangle(-50, -50, 100, 100))],
    };
    const snug = job({
      clearance: 5,
      edgeMargin: 0,
      parts: [part("ring", ring), part("core", block(90, 90))],
      stock: [stock("s", rectangle(0, 0, 120, 120), { available: 1 })],
    });
    expect(copies(await packed(snug))).toBe(2);
    const tight = { ...snug, clearance: 5.001 };
    expect(copies(await packed(tight))).toBe(1);
  });

  it("lays a disc on a sheet that is just wide enough", async () => {
    const wheel = job({
      edgeMargin: 5,
      chordError: 0.5,
      clearance: 2,
      parts: [part("wheel", solid(circle({ x: 0, y: 0 }, 100)), { rotations: [0, 45] })],
      stock: [stock("s", rectangle(0, 0, 210.1, 210.1))],
    });
    expect(copies(await packed(wheel))).toBe(1);
  });
});

describe("openings", () => {
  const ring: Region = {
    outer: circle({ x: 0, y: 0 }, 100),
    openings: [reversed(circle({ x: 0, y: 0 }, 80))],
  };

  it("lays plates inside the openings of others, and others inside these", async () => {
    const nested = job({
      clearance: 4,
      edgeMargin: 5,
      parts: [
        part("ring", ring),
        part("middle", {
          outer: circle({ x: 9, y: 0 }, 70),
          openings: [reversed(circle({ x: 9, y: 0 }, 50))],
        }),
        part("core", block(60, 60), { rotations: "any" }),
      ],
      stock: [stock("s", rectangle(0, 0, 211, 211), { available: 1 })],
      effort: { steps: 60 },
    });
    expect(copies(await packed(nested))).toBe(3);
  });

  it("keeps out of openings that are too narrow", async () => {
    const full = job({
      clearance: 4,
      edgeMargin: 5,
      parts: [part("ring", ring), part("core", block(112, 112), { rotations: "any" })],
      stock: [stock("s", rectangle(0, 0, 211, 211), { available: 1 })],
      effort: { steps: 60 },
    });
    const result = await packed(full);
    expect(copies(result)).toBe(1);
    expect(result.unplaced[0]).toMatchObject({ count: 1, reason: "stock-used-up" });
  });
});

describe("rotations", () => {
  it("keeps the grain: half turns only, though quarter turns would save a sheet", async () => {
    const slats = (rotations: number[]): NestJob =>
      job({
        parts: [part("slat", block(300, 50), { demand: 6, rotations })],
        stock: [stock("s", rectangle(0, 0, 320, 300))],
      });
    const along = await packed(slats([0, 180]));
    expect(along.sheets).toMatchObject([{ times: 1 }]);
    const across = await packed(slats([90]));
    expect(copies(across)).toBe(6);
    const turned = job({ ...slats([0, 180]), stock: [stock("s", rectangle(0, 0, 160, 310))] });
    const refused = await nest(turned);
    expect(refused.unplaced).toMatchObject([{ part: "slat", count: 6, reason: "too-large" }]);
    const allowed = await packed({ ...turned, parts: slats([90]).parts });
    expect(allowed.sheets).toMatchObject([{ times: 2 }]);
  });

  it("finds the one angle at which a long plate lies on the diagonal", async () => {
    const strip = job({
      edgeMargin: 5,
      clearance: 3,
      parts: [part("strip", block(330, 20), { rotations: "any" })],
      stock: [stock("s", rectangle(0, 0, 270, 260))],
    });
    expect(copies(await packed(strip))).toBe(1);
  });

  it("mirrors only where that is allowed", async () => {
    const hook = solid(
      polygon([
        { x: 0, y: 0 },
        { x: 100, y: 0 },
        { x: 100, y: 20 },
        { x: 20, y: 20 },
        { x: 20, y: 50 },
        { x: 0, y: 50 },
      ]),
    );
    const notch = polygon([
      { x: 0, y: 0 },
      { x: 102, y: 0 },
      { x: 102, y: 52 },
      { x: 80, y: 52 },
      { x: 80, y: 22 },
      { x: 0, y: 22 },
    ]);
    const hooks = (mirrorable: boolean): NestJob =>
      job({ parts: [part("hook", hook, { mirrorable })], stock: [stock("s", notch)] });
    expect(copies(await packed(hooks(true)))).toBe(1);
    const refused = await nest(hooks(false));
    expect(refused.unplaced).toMatchObject([{ part: "hook", reason: "too-large" }]);
  });
});

describe("stock", () => {
  it("uses free offcuts of any outline first, and only then buys", async () => {
    const brackets = job({
      clearance: 4,
      edgeMargin: 6,
      parts: [part("bracket", block(80, 80), { demand: 7, rotations: "any" })],
      stock: [
        stock("whole", rectangle(0, 0, 300, 200), { cost: 20 }),
        stock("corner", corner, { cost: 0, available: 1 }),
      ],
    });
    const result = await packed(brackets);
    expect(result.sheets.map((sheet) => [sheet.stock, sheet.placements.length])).toEqual([
      ["corner", 6],
      ["whole", 1],
    ]);
    expect(result.cost).toBe(20);
  });

  it("buys one large sheet when that is cheaper than two small ones", async () => {
    const plates = job({
      parts: [part("p", block(100, 100), { demand: 7 })],
      stock: [
        stock("small", rectangle(0, 0, 400, 100), { cost: 10 }),
        stock("large", rectangle(0, 0, 400, 200), { cost: 18 }),
      ],
    });
    expect((await packed(plates)).cost).toBe(18);
    const fewer = { ...plates, parts: [part("p", block(100, 100), { demand: 12 })] };
    expect((await packed(fewer)).cost).toBe(28);
  });

  it("leaves keep-outs free", async () => {
    const held = job({
      clearance: 5,
      parts: [part("p", block(45, 45), { demand: 8 })],
      stock: [stock("s", rectangle(0, 0, 145, 145), { keepOuts: [circle({ x: 72.5, y: 72.5 }, 22)] })],
    });
    expect((await packed(held)).sheets).toMatchObject([{ times: 1 }]);
  });

  it("merges equal sheets, and repeats them for large demands at once", async () => {
    const many = job({
      clearance: 2,
      parts: [part("p", block(98, 98), { demand: 1001 })],
      stock: [stock("s", rectangle(0, 0, 498, 198), { cost: 3 })],
      effort: { steps: 50 },
    });
    const result = await packed(many);
    expect(result.sheets.map((sheet) => [sheet.times, sheet.placements.length])).toEqual([
      [100, 10],
      [1, 1],
    ]);
    expect(result.cost).toBe(303);
  });

  it("leaves the rest of the last sheet in one piece", async () => {
    const few = job({
      parts: [part("p", block(60, 30), { demand: 6, rotations: "any" })],
      stock: [stock("s", rectangle(0, 0, 600, 120))],
      effort: { steps: 300 },
    });
    const [sheet] = (await packed(few)).sheets;
    // 6 plates of 60 x 30 in a column of 120: 90 mm of length at least.
    const reach = Math.max(
      ...(sheet?.placements ?? []).map(
        ({ x, rotation }) => x + (rotation % 180 === 0 ? 60 : rotation === 270 ? 30 : 0),
      ),
    );
    expect(reach).toBeLessThanOrEqual(120);
  });
});

describe("what cannot be laid", () => {
  it("says how much too large a plate is and for which stock", async () => {
    const large = job({
      edgeMargin: 10,
      parts: [part("deck", block(420, 310), { demand: 2, rotations: [0, 90] })],
      stock: [stock("a", rectangle(0, 0, 200, 200)), stock("b", rectangle(0, 0, 400, 340))],
    });
    const { unplaced, sheets } = await nest(large);
    expect(sheets).toEqual([]);
    expect(unplaced).toEqual([
      {
        part: "deck",
        count: 2,
        reason: "too-large",
        message:
          "deck is 420 x 310 mm at its best angle, 0 degrees; the nearest stock, b (400 x 340 mm), " +
          "leaves 380 x 320 mm within its edge margin: it lacks 40 x 0 mm",
      },
    ]);
  });

  it("says what stock is used up", async () => {
    const short = job({
      parts: [part("p", block(100, 100), { demand: 5 })],
      stock: [stock("a", rectangle(0, 0, 200, 100), { available: 2 })],
    });
    const { unplaced, sheets } = await nest(short);
    expect(sheets).toMatchObject([{ times: 2 }]);
    expect(unplaced).toMatchObject([{ part: "p", count: 1, reason: "stock-used-up" }]);
    expect(unplaced[0]?.message).toBe(
      "1 of 5 copies of p are left: everything they fit on is used up (2 of a)",
    );
  });

  it("lays the plates of most worth when stock is short", async () => {
    const short = job({
      parts: [
        part("large", block(100, 100), { demand: 2, value: 1 }),
        part("dear", block(50, 50), { demand: 8, value: 9 }),
      ],
      stock: [stock("a", rectangle(0, 0, 200, 100), { available: 1 })],
    });
    const { unplaced } = await packed(short);
    expect(unplaced).toMatchObject([{ part: "large", count: 2 }]);
  });

  it("copes with no plates, no stock, no demand, and margins that leave nothing", async () => {
    expect(await nest(job())).toMatchObject({ sheets: [], unplaced: [], cost: 0, yield: 0 });
    const plate = part("p", block(10, 10));
    expect((await nest(job({ parts: [plate] }))).unplaced).toMatchObject([
      { count: 1, reason: "stock-used-up" },
    ]);
    const narrow = job({ parts: [plate], stock: [stock("s", rectangle(0, 0, 50, 50))], edgeMargin: 25 });
    expect((await nest(narrow)).unplaced).toMatchObject([{ count: 1, reason: "too-large" }]);
    const none = job({ parts: [{ ...plate, demand: 0 }], stock: [stock("s", rectangle(0, 0, 50, 50))] });
    expect(await nest(none)).toMatchObject({ sheets: [], unplaced: [] });
  });

  it("refuses a job that is not sound", async () => {
    await expect(nest(job({ clearance: Number.NaN }))).rejects.toBeInstanceOf(NestJobError);
  });
});

describe("the run", () => {
  const mixed = job({
    clearance: 4,
    edgeMargin: 8,
    parts: [
      part(
        "cheek",
        solid(
          roundedPolygon([
            { x: 0, y: 0, radius: 9 },
            { x: 210, y: 0 },
            { x: 170, y: 90, radius: 20 },
            { x: 20, y: 90 },
          ]),
        ),
        { demand: 4, rotations: "any", mirrorable: true },
      ),
      part("disc", solid(circle({ x: 0, y: 0 }, 31)), { demand: 7, rotations: "any" }),
      part("bar", block(140, 22), { demand: 5, rotations: [0, 180] }),
    ],
    stock: [
      stock("s", rectangle(0, 0, 400, 300), { cost: 4 }),
      stock("t", rectangle(0, 0, 250, 300), { cost: 2.6 }),
    ],
    effort: { steps: 400 },
  });

  it("gives the same answer for the same seed and steps", async () => {
    const first = await nest(mixed);
    expect(await nest(mixed)).toEqual(first);
  });

  it("reports sound layouts that never get worse, and returns the last of them", async () => {
    const heard: NestResult[] = [];
    const result = await nest(mixed, { onProgress: (best) => heard.push(best) });
    expect(heard.length).toBeGreaterThan(0);
    for (const best of heard) expect(verify(mixed, best)).toEqual([]);
    const costs = heard.map((best) => best.cost);
    expect([...costs].sort((a, b) => b - a)).toEqual(costs);
    expect(withoutSteps(heard.at(-1) as NestResult)).toEqual(withoutSteps(result));
  });

  it("ends with a whole layout when it is aborted, before or while it runs", async () => {
    const endless = { ...mixed, effort: { seconds: 3600 } };
    const before = await nest(endless, { signal: AbortSignal.abort() });
    expect(copies(before)).toBe(16);
    const controller = new AbortController();
    const later = await nest(endless, { signal: controller.signal, onProgress: () => controller.abort() });
    expect(copies(later)).toBe(16);
    expect(verify(mixed, later)).toEqual([]);
  });

  it("stops after the seconds given", async () => {
    const start = performance.now();
    await nest({ ...mixed, effort: { seconds: 0.3 } });
    expect(performance.now() - start).toBeLessThan(3000);
  });

  it("lays 300 plates of ten kinds in a few seconds", async () => {
    const outlines: Region[] = [3, 4, 5, 6, 7].flatMap((corners) => [
      solid(
        polygon(
          Array.from({ length: corners }, (_, k) => ({
            x: 30 * Math.cos((2 * Math.PI * k) / corners),
            y: (20 + corners) * Math.sin((2 * Math.PI * k) / corners),
          })),
        ),
      ),
      {
        outer: circle({ x: 0, y: 0 }, 12 + 5 * corners),
        openings: [reversed(circle({ x: 0, y: 0 }, 5 * corners))],
      },
    ]);
    const many = job({
      clearance: 4,
      edgeMargin: 10,
      parts: outlines.map((region, index) => part(`p${index}`, region, { demand: 30, rotations: "any" })),
      stock: [stock("s", rectangle(0, 0, 1000, 500))],
      effort: { steps: 1 },
    });
    const start = performance.now();
    const result = await packed(many);
    expect(copies(result)).toBe(300);
    expect(performance.now() - start).toBeLessThan(20_000);
  });
});
