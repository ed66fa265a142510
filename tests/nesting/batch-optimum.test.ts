import { planBatch, planBatches } from "@keelcut/nesting";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { solveModel } from "../../packages/cli/src/cost/lengths/linear-model.js";
import { cheapestChoice, type Master } from "../../packages/nesting/src/batch/master.js";
import type { SheetLayout } from "../../packages/nesting/src/batch/pool.js";
import { stockShapes } from "../../packages/nesting/src/batch/shapes.js";
import { prepare } from "../../packages/nesting/src/sheets/prepare.js";
import { batch, expectSound, plates, sheet } from "./batch-jobs.js";
import { randomJob } from "./random-jobs.js";

const solver = solveModel;

/** A master over layouts given by their counts alone: what lies where does not matter to it. */
function masterOf(demand: readonly number[], counts: readonly (readonly number[])[], price: number): Master {
  const parts = demand.map((count, kind) => plates(`p${kind}`, 10, 10, count));
  const tiers = [
    { from: 1, each: price },
    { from: 4, each: price - 2 },
  ];
  const job = batch(parts, [{ ...sheet("s", 100, 100, price), tiers }]);
  const setup = prepare(job);
  const shapes = stockShapes(setup, job);
  const [shape] = shapes;
  if (shape === undefined) throw new Error("a job without a sheet");
  const layouts = counts.map((own): SheetLayout => {
    const filled = { model: shape.along, laid: [], counts: own, area: 0, used: 0 };
    return { shape, counts: own, filled };
  });
  return { job, shapes, layouts, demand, areas: demand.map(() => 100), restShare: () => 0 };
}

/** Fewest sheets that cover the demand, by trying every number of every layout; undefined when they cannot. */
function leastSheets(demand: readonly number[], counts: readonly (readonly number[])[]): number | undefined {
  let least: number | undefined;
  const go = (layout: number, left: readonly number[], sheets: number): void => {
    if (least !== undefined && sheets >= least) return;
    if (left.every((count) => count <= 0)) {
      least = sheets;
      return;
    }
    const own = counts[layout];
    if (own === undefined) return;
    const most = Math.max(
      ...left.map((count, kind) => ((own[kind] ?? 0) > 0 ? Math.ceil(count / (own[kind] as number)) : 0)),
    );
    for (let times = 0; times <= most; times++) {
      go(
        layout + 1,
        left.map((count, kind) => count - times * (own[kind] ?? 0)),
        sheets + times,
      );
    }
  };
  go(0, demand, 0);
  return least;
}

/** Cheapest way to buy at least so many: from four on they are cheaper each. */
function leastCost(sheets: number, price: number): number {
  return Math.min(...[sheets, 4].filter((n) => n >= sheets).map((n) => n * (n >= 4 ? price - 2 : price)));
}

describe("the master programme", () => {
  it("finds what trying everything finds, with tiers, for two and three kinds", async () => {
    const count = fc.integer({ min: 0, max: 4 });
    const cases = fc.integer({ min: 2, max: 3 }).chain((kinds) =>
      fc.record({
        demand: fc.array(fc.integer({ min: 1, max: 14 }), { minLength: kinds, maxLength: kinds }),
        counts: fc.array(fc.array(count, { minLength: kinds, maxLength: kinds }), {
          minLength: 2,
          maxLength: 4,
        }),
      }),
    );
    let whole = 0;
    await fc.assert(
      fc.asyncProperty(cases, async ({ demand, counts }) => {
        const answer = await cheapestChoice(masterOf(demand, counts, 10), solver, undefined);
        if (answer === undefined) throw new Error("no answer");
        const { choice, proved } = answer;
        expect(proved).toBe(true);
        const least = leastSheets(demand, counts);
        if (least === undefined) {
          expect(choice.left.some((left) => left > 0)).toBe(true);
          return;
        }
        whole++;
        expect(choice.left.every((left) => left === 0)).toBe(true);
        expect(choice.cost).toBeCloseTo(leastCost(least, 10), 9);
      }),
      { numRuns: 60, seed: 12 },
    );
    expect(whole).toBeGreaterThan(20);
  });

  it("never costs less for one kit more, on small jobs of odd plates", async () => {
    for (const seed of [3, 21]) {
      const random = randomJob(seed);
      const job = {
        ...random,
        stock: random.stock.map((stock) => ({ ...stock, available: "unlimited" as const, cost: 7 })),
        parts: random.parts.map((part) => ({ ...part, perKit: Math.max(1, part.demand) })),
        effort: { steps: 60 },
      };
      const kits = [1, 2, 3, 7, 8, 9];
      const demands = kits.map((number) => job.parts.map((part) => number * part.perKit));
      const plans = await planBatches(job, demands, { solver });
      let before = 0;
      for (const [index, plan] of plans.entries()) {
        const demand = demands[index] as number[];
        const own = {
          ...job,
          parts: job.parts.map((part, kind) => ({ ...part, demand: demand[kind] as number })),
        };
        expectSound(own, plan);
        expect(plan.cost).toBeGreaterThanOrEqual(before - 1e-9);
        before = plan.cost;
      }
    }
  });

  it("meets the fewest sheets that any cutting of bars has", async () => {
    // 7 of 6 and 5 of 4 on bars of 10: 6 + 4 five times, then two bars of one 6 each.
    const job = batch([plates("a", 6, 10, 7), plates("b", 4, 10, 5)], [sheet("s", 10, 10, 1)]);
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect([plan.sheetCount, plan.optimal]).toEqual([7, true]);
  });
});
