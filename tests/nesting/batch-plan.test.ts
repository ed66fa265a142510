import { circle } from "@keelcut/geometry";
import { type BatchJob, NestJobError, planBatch } from "@keelcut/nesting";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { solveModel } from "../../packages/cli/src/cost/lengths/linear-model.js";
import { lastingWorths } from "../../packages/nesting/src/batch/master.js";
import { evenSheets } from "../../packages/nesting/src/batch/one-layout.js";
import type { SheetLayout } from "../../packages/nesting/src/batch/pool.js";
import type { StockShape } from "../../packages/nesting/src/batch/shapes.js";
import { batch, expectSound, plates, sheet } from "./batch-jobs.js";
import { solid } from "./jobs.js";
import { randomJob } from "./random-jobs.js";

const solver = solveModel;

describe("planning many kits", () => {
  it("proves a perfect plan: sheets cut whole into rectangles", async () => {
    // 13 sheets of 600 x 400, each cut whole into 2 of 300 x 200, 2 of 150 x 200 and, below, 300 x 200 again.
    const parts = [plates("a", 300, 200, 3 * 13), plates("b", 150, 200, 2 * 13)];
    const job = batch(parts, [sheet("s", 600, 400, 10)]);
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect(plan.sheetCount).toBe(13);
    expect(plan.optimal).toBe(true);
    expect(plan.yield).toBeCloseTo(1, 9);
  });

  it("buys at the tier of the quantity, more than it cuts where that is cheaper", async () => {
    const stock = {
      ...sheet("s", 100, 100, 10),
      tiers: [
        { from: 1, each: 10 },
        { from: 5, each: 7 },
      ],
    };
    const job = batch([plates("a", 100, 100, 4)], [stock]);
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect(plan.use).toEqual([{ stock: "s", used: 4, bought: 5, each: 7 }]);
    expect(plan.optimal).toBe(true);
  });

  it("uses what is at hand first and no more than there is", async () => {
    const own = { ...sheet("s/own", 100, 100, 0), available: 3 };
    const job = batch([plates("a", 50, 100, 11)], [sheet("s", 100, 100, 10), own]);
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect(plan.cost).toBe(30);
    expect(plan.optimal).toBe(true);
    expect(plan.sheetCount).toBe(6);
  });

  it("lays sheets less full where a second layout costs more than they do", async () => {
    // Three fit a sheet: 3 + 3 + 3 + 1 are four sheets of two layouts, 2 x 5 are five of one.
    const parts = [plates("a", 30, 90, 10)];
    const stock = [sheet("s", 90, 90, 12)];
    const few = batch(parts, stock, { costPerLayout: 20 });
    const plan = await planBatch(few, { solver });
    expectSound(few, plan);
    expect([plan.sheetCount, plan.layoutCount, plan.cost]).toEqual([5, 1, 80]);
    const limited = batch(parts, stock, { maxLayouts: 1 });
    const one = await planBatch(limited, { solver });
    expectSound(limited, one);
    expect([one.sheetCount, one.layoutCount, one.withinMaxLayouts]).toEqual([5, 1, true]);
    const usual = batch(parts, stock);
    expect((await planBatch(usual, { solver })).sheetCount).toBe(4);
  });

  it("finds the fewest equal sheets that make just the demand", () => {
    expect(evenSheets([3, 9], [10, 20], 0)).toEqual({ times: 5, counts: [2, 4] });
    expect(evenSheets([4], [12], 0)).toEqual({ times: 3, counts: [4] });
    expect(evenSheets([3], [10], 20)).toEqual({ times: 4, counts: [3] });
    // Seven is prime: twos would make eight.
    expect(evenSheets([2], [7], 0)).toEqual({ times: 7, counts: [1] });
    expect(evenSheets([3, 0], [10, 1], 0)).toBeUndefined();
  });

  it("takes the worth of plates from sheets that last, where those hold all", async () => {
    const shape = (index: number, price: number): StockShape =>
      ({ index, price, pieces: [] }) as unknown as StockShape;
    const [main, few] = [shape(0, 120), shape(1, 45)];
    const layout = (on: StockShape, count: number): SheetLayout =>
      ({ shape: on, counts: [count] }) as unknown as SheetLayout;
    const layouts = [layout(main, 4), layout(few, 3)];
    expect((await lastingWorths(layouts, [1], [main], solver))?.plates[0]).toBeCloseTo(30, 9);
    expect((await lastingWorths(layouts, [1], [few], solver))?.plates[0]).toBeCloseTo(15, 9);
    expect((await lastingWorths([layout(few, 3)], [1], [main], solver))?.plates[0]).toBeCloseTo(15, 9);
  });

  it("leaves over what the stock cannot hold and says why", async () => {
    const parts = [plates("a", 100, 100, 5), plates("huge", 300, 20, 2)];
    const job = batch(parts, [{ ...sheet("s", 100, 100, 10), available: 3 }]);
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect(plan.unplaced.map(({ part, count, reason }) => [part, count, reason])).toEqual([
      ["a", 2, "stock-used-up"],
      ["huge", 2, "too-large"],
    ]);
    expect(plan.optimal).toBe(false);
  });

  it("keeps to a most number of layouts, for more sheets", async () => {
    const parts = [plates("a", 60, 40, 31), plates("b", 45, 30, 47), plates("c", 25, 80, 17)];
    const free = batch(parts, [sheet("s", 150, 100, 10)], { effort: { steps: 500 } });
    const best = await planBatch(free, { solver });
    const few = { ...free, maxLayouts: 2, surplusPercent: 40 };
    const plan = await planBatch(few, { solver });
    expectSound(free, best);
    expectSound(few, plan);
    expect(plan.layoutCount).toBeLessThanOrEqual(2);
    expect(plan.withinMaxLayouts).toBe(true);
    expect(plan.sheetCount).toBeGreaterThanOrEqual(best.leastSheets.value);
    const rows = best.trade.map((row) => [row.layouts, row.cost]);
    expect(rows).toEqual(rows.toSorted((a, b) => (a[0] as number) - (b[0] as number)));
    const costs = rows.map((row) => row[1] as number);
    expect(costs).toEqual(costs.toSorted((a, b) => b - a));
  });

  it("never costs less for more kits", async () => {
    const kit = (kits: number): BatchJob => {
      const parts = [
        { ...plates("a", 130, 70, 2 * kits), perKit: 2 },
        { ...plates("b", 90, 55, 3 * kits), perKit: 3 },
        {
          id: "c",
          region: solid(circle({ x: 0, y: 0 }, 24)),
          demand: kits,
          perKit: 1,
          rotations: "any" as const,
          mirrorable: false,
        },
      ];
      const stock = [
        {
          ...sheet("full", 400, 300, 21),
          tiers: [
            { from: 1, each: 21 },
            { from: 4, each: 19 },
          ],
        },
        sheet("half", 200, 300, 12),
        { ...sheet("rest", 170, 210, 0), available: 2 },
      ];
      return batch(parts, stock, { clearance: 3, edgeMargin: 4, effort: { steps: 250 } });
    };
    let before = 0;
    for (const kits of [1, 2, 3, 5, 6, 14, 15]) {
      const job = kit(kits);
      const plan = await planBatch(job, { solver });
      expectSound(job, plan);
      expect(plan.unplaced).toEqual([]);
      expect(plan.cost).toBeGreaterThanOrEqual(before);
      before = plan.cost;
    }
  });

  it("gives the same plan for the same seed and steps, and works without a solver", async () => {
    const parts = [plates("a", 60, 40, 31), plates("b", 45, 30, 47)];
    const job = batch(parts, [sheet("s", 150, 100, 10), sheet("t", 100, 100, 7)]);
    const [one, two] = [await planBatch(job, { solver }), await planBatch(job, { solver })];
    expect(two).toEqual(one);
    const plain = await planBatch(job);
    expectSound(job, plain);
    expect(plain.cost).toBeGreaterThanOrEqual(one.cost);
  });

  it("ends with a whole plan when it is stopped at once", async () => {
    const parts = [plates("a", 160, 140, 310), plates("b", 145, 130, 470)];
    const job = batch(parts, [sheet("s", 1500, 1000, 10)], { effort: { seconds: 600 } });
    const heard: number[] = [];
    const plan = await planBatch(job, {
      solver,
      signal: AbortSignal.abort(),
      onProgress: (best) => heard.push(best.sheetCount),
    });
    expectSound(job, plan);
    expect(plan.unplaced).toEqual([]);
    expect(heard.length).toBeGreaterThan(0);
  });

  it("refuses numbers that mean nothing", async () => {
    const job = batch([plates("a", 60, 40, 3)], [sheet("s", 150, 100, 10)]);
    for (const wrong of [
      { surplusPercent: -1 },
      { costPerSheet: Number.NaN },
      { costPerLayout: Number.POSITIVE_INFINITY },
      { maxLayouts: 0 },
      {
        stock: [
          {
            ...sheet("s", 150, 100, 10),
            tiers: [
              { from: 2, each: 1 },
              { from: 2, each: 1 },
            ],
          },
        ],
      },
    ]) {
      await expect(planBatch({ ...job, ...wrong })).rejects.toThrow(NestJobError);
    }
  });

  it("is never short, never over, never beyond the stock, on random jobs", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 1e6 }),
        fc.integer({ min: 1, max: 60 }),
        async (seed, kits) => {
          const random = randomJob(seed);
          const job: BatchJob = {
            ...random,
            parts: random.parts.map((part) => ({ ...part, demand: part.demand * kits })),
            surplusPercent: [0, 0, 5, 30][seed % 4] as number,
            costPerLayout: seed % 3 === 0 ? 2 : 0,
            effort: { steps: 40 },
          };
          expectSound(job, await planBatch(job, { solver }));
        },
      ),
      { numRuns: 10, seed: 4711 },
    );
  });
});
