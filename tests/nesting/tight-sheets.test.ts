import { clockwise, rectangle } from "@keelcut/geometry";
import { type BatchJob, type PlacedPart, planBatch, verify } from "@keelcut/nesting";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { solveModel } from "../../packages/cli/src/cost/lengths/linear-model.js";
import { batch, plates, sheet } from "./batch-jobs.js";
import { block } from "./jobs.js";

/** Sheets just large enough for a layout made by hand: what fits one sheet must never be said to need two. */

const at = (part: string, x: number, y: number): PlacedPart => ({ part, x, y, rotation: 0, mirrored: false });

/** The hand-made layout passes the independent check, and no bound lies above it, with a solver or without. */
async function expectOneSheet(job: BatchJob, placements: readonly PlacedPart[]): Promise<void> {
  const [stock] = job.stock;
  const byHand = {
    sheets: [{ stock: "s", times: 1, placements }],
    unplaced: [],
    cost: stock?.cost ?? 0,
    yield: 0,
    steps: 0,
  };
  // The yield is not worked out here.
  expect(verify(job, byHand).filter(({ kind }) => kind !== "totals")).toEqual([]);
  for (const control of [{}, { solver: solveModel }]) {
    const plan = await planBatch(job, control);
    expect(plan.leastSheets.value).toBe(1);
    expect(plan.leastCost.value).toBeLessThanOrEqual(byHand.cost * (1 + 1e-9));
    if (plan.optimal) expect(plan.sheetCount).toBe(1);
  }
}

const frameOf = (size: number, hole: number) => ({
  outer: rectangle(0, 0, size, size),
  openings: [clockwise(rectangle((size - hole) / 2, (size - hole) / 2, hole, hole))],
});

describe("bounds on sheets that are just large enough", () => {
  it("let rectangles that lie askew of each other come nearer both ways than the clearance", async () => {
    // 7.2 mm apart both ways are 10.18 mm from corner to corner.
    const job = batch([plates("a", 100, 100, 2)], [sheet("s", 207.2, 207.2, 3)], { clearance: 10 });
    await expectOneSheet(job, [at("a", 0, 0), at("a", 107.2, 107.2)]);
  });

  it("let a rectangle lie in the opening of another", async () => {
    const frame = { ...plates("frame", 100, 100, 1), region: frameOf(100, 80) };
    const job = batch([frame, plates("square", 70, 70, 1)], [sheet("s", 110, 110, 3)]);
    await expectOneSheet(job, [at("frame", 0, 0), at("square", 15, 15)]);
  });

  it("let a keep-out lie in an opening that holds no plate", async () => {
    const holed = { ...plates("holed", 100, 100, 1), region: frameOf(100, 12) };
    const clamp = rectangle(45, 45, 10, 10);
    const job = batch([holed], [{ ...sheet("s", 100, 100, 3), keepOuts: [clamp] }]);
    await expectOneSheet(job, [at("holed", 0, 0)]);
  });

  it("hold for frames in frames around clamps, with and without clearance", async () => {
    const drawn = fc.record({
      core: fc.integer({ min: 20, max: 60 }),
      rims: fc.array(fc.integer({ min: 6, max: 15 }), { minLength: 1, maxLength: 3 }),
      clearance: fc.constantFrom(0, 2, 5),
      clamped: fc.boolean(),
    });
    await fc.assert(
      fc.asyncProperty(drawn, async ({ core, rims, clearance, clamped }) => {
        // From the inside out: a core, plate or clamp, and frames around it that just leave the clearance.
        const sizes = [core];
        for (const rim of rims) sizes.push((sizes.at(-1) ?? 0) + 2 * clearance + 2 * rim);
        const whole = sizes.at(-1) ?? 0;
        const corner = (size: number): number => (whole - size) / 2;
        const parts = sizes.map((size, index) => {
          const hole = (sizes[index - 1] ?? 0) + 2 * clearance;
          const region = index === 0 ? block(size, size) : frameOf(size, hole);
          return { ...plates(`p${index}`, size, size, 1), region };
        });
        const own = clamped ? parts.slice(1) : parts;
        const keepOuts = clamped ? [rectangle(corner(core), corner(core), core, core)] : [];
        const job = batch(own, [{ ...sheet("s", whole, whole, 3), keepOuts }], { clearance });
        const placed = sizes.map((size, index) => at(`p${index}`, corner(size), corner(size)));
        await expectOneSheet(job, clamped ? placed.slice(1) : placed);
      }),
      { numRuns: 40, seed: 3 },
    );
  });
});

describe("stock that is nearly of no use", () => {
  it("never raises the bound on cost, wherever it is listed", async () => {
    const parts = [plates("a", 75, 84, 12), plates("b", 70, 29, 12)].map((each) => ({
      ...each,
      perKit: 1,
      rotations: [0, 90],
    }));
    const dear = sheet("dear", 200, 151, 100);
    const scrap = { ...sheet("scrap", 24, 24, 0), available: 1 };
    const cheap = sheet("cheap", 200, 150, 50);
    for (const stock of [
      [dear, scrap, cheap],
      [dear, cheap],
      [dear, cheap, scrap],
    ]) {
      const plan = await planBatch(batch(parts, stock), { solver: solveModel });
      expect([plan.cost, plan.leastCost.value]).toEqual([200, 200]);
    }
  });

  it("is not bought where another of its outline costs less at the quantity", async () => {
    const parts = [plates("a", 60, 60, 3)];
    const tiers = [
      { from: 1, each: 10 },
      { from: 100, each: 1 },
    ];
    const stock = [{ ...sheet("a", 100, 100, 10), tiers }, sheet("b", 100, 100, 5)];
    for (const control of [{}, { solver: solveModel }]) {
      expect((await planBatch(batch(parts, stock), control)).cost).toBe(15);
    }
  });

  it("does not take the place of stock that can be had, when it is sold in larger quantities than there are", async () => {
    const few = { ...sheet("few", 100, 100, 1), available: 3, tiers: [{ from: 10, each: 1 }] };
    const more = { ...sheet("more", 100, 100, 5), available: 2 };
    const plan = await planBatch(batch([plates("a", 60, 60, 5)], [few, more]));
    expect([plan.sheetCount, plan.cost]).toEqual([2, 10]);
  });
});

it("keep-outs over each other, over the edge and in the margin leave the rest of a sheet free", async () => {
  const clamps = [
    [5, 5],
    [905, 905],
    [5, 905],
    [905, 5],
    [900, 950],
  ] as const;
  const keepOuts = clamps.map(([x, y]) => rectangle(x, y, 90, 90));
  const job = batch([plates("a", 790, 790, 1)], [{ ...sheet("s", 1000, 1000, 3), keepOuts }], {
    edgeMargin: 100,
  });
  const plan = await planBatch(job, { solver: solveModel });
  expect(plan.unplaced).toEqual([]);
});

it("plates that fit no stock leave no plan proven best", async () => {
  const plan = await planBatch(batch([plates("a", 300, 300, 2)], [sheet("s", 100, 100, 3)]), {
    solver: solveModel,
  });
  expect([plan.unplaced.length, plan.optimal]).toEqual([1, false]);
});

it("layouts cost their setting up where stock has no price, in the plan, its bound and its rows", async () => {
  const job = batch([plates("a", 60, 60, 3)], [sheet("s", 100, 100, 0)], { costPerLayout: 2 });
  const plan = await planBatch(job, { solver: solveModel });
  expect([plan.cost, plan.leastCost.value, plan.trade[0]?.cost]).toEqual([2, 2, 2]);
});

it("sheets cost their handling where stock has no price, and few of them come before little area", async () => {
  const own = [
    { ...sheet("small", 100, 100, 0), available: 4 },
    { ...sheet("large", 210, 220, 0), available: 1 },
  ];
  const job = batch([plates("a", 98, 98, 4)], own, { costPerSheet: 3, costPerLayout: 1 });
  const plan = await planBatch(job, { solver: solveModel });
  expect([plan.sheetCount, plan.cost, plan.leastCost.value]).toEqual([1, 4, 4]);
  // Without handling the least area is wanted: four small pieces are 0.04 m2, the large one 0.0462.
  const spared = await planBatch(batch([plates("a", 98, 98, 4)], own), { solver: solveModel });
  expect([spared.sheetCount, spared.cost]).toEqual([4, 0]);
});

it("a sheet at hand is not used up to save a layout that costs nothing, though others have a price", async () => {
  const stock = [{ ...sheet("s/at-hand", 100, 100, 0), available: 20 }, sheet("s", 100, 100, 10)];
  const parts = [plates("a", 50, 100, 6), plates("b", 50, 50, 6)].map((part) => ({ ...part, perKit: 1 }));
  const plan = await planBatch(batch(parts, stock), { solver: solveModel });
  // 6 halves and 6 quarters of a sheet: 4.5 sheets.
  expect([plan.sheetCount, plan.cost]).toEqual([5, 0]);
});

it("no plan is called cheapest where a price falls further than the planner knows", async () => {
  const stock = [{ ...sheet("s", 100, 100, 10), fallsFurther: true }];
  const plan = await planBatch(batch([plates("a", 60, 60, 3)], stock), { solver: solveModel });
  expect([plan.optimal, plan.leastCost.value, plan.sheetCount]).toEqual([false, 0, 3]);
});

it("layouts are counted where one costs more than a sheet: no copy is left out for it", async () => {
  const stock = [{ ...sheet("s", 100, 100, 1), available: 40 }];
  const parts = [plates("a", 50, 100, 6), plates("b", 50, 50, 6)].map((part) => ({ ...part, perKit: 1 }));
  const plan = await planBatch(batch(parts, stock, { costPerLayout: 1000 }), { solver: solveModel });
  expect(plan.unplaced).toEqual([]);
  expect(plan.layoutCount).toBe(1);
});
