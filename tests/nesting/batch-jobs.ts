import { rectangle } from "@keelcut/geometry";
import type { BatchJob, BatchPart, BatchPlan, BatchStock } from "@keelcut/nesting";
import { expect } from "vitest";
import { independentFaults } from "./independent-check.js";
import { block } from "./jobs.js";

/** A batch job with no spacing and a small effort. */
export function batch(
  parts: readonly BatchPart[],
  stock: readonly BatchStock[],
  over: Partial<BatchJob> = {},
): BatchJob {
  return {
    parts,
    stock,
    clearance: 0,
    edgeMargin: 0,
    chordError: 0.1,
    seed: 1,
    effort: { steps: 300 },
    ...over,
  };
}

/** Rectangles that stay as drawn. */
export function plates(id: string, length: number, width: number, demand: number): BatchPart {
  return { id, region: block(length, width), demand, rotations: [0], mirrorable: false };
}

export function sheet(id: string, length: number, width: number, cost: number): BatchStock {
  return { id, outline: rectangle(0, 0, length, width), keepOuts: [], available: "unlimited", cost };
}

/** Copies of each part on all sheets. */
export function made(plan: BatchPlan): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { times, placements } of plan.sheets) {
    for (const { part } of placements) counts.set(part, (counts.get(part) ?? 0) + times);
  }
  return counts;
}

/** Holds a plan against everything it must keep, by its own sums and by an independent library. */
export function expectSound(job: BatchJob, plan: BatchPlan): void {
  const counts = made(plan);
  const unplaced = new Map(plan.unplaced.map(({ part, count }) => [part, count]));
  const surplus = new Map(plan.surplus.map(({ part, count }) => [part, count]));
  for (const { id, demand } of job.parts) {
    const copies = counts.get(id) ?? 0;
    expect(copies + (unplaced.get(id) ?? 0)).toBe(demand + (surplus.get(id) ?? 0));
    expect(surplus.get(id) ?? 0).toBeLessThanOrEqual((demand * (job.surplusPercent ?? 0)) / 100);
  }
  let price = 0;
  for (const stock of job.stock) {
    const own = plan.sheets.filter((each) => each.stock === stock.id);
    const used = own.reduce((sum, each) => sum + each.times, 0);
    const use = plan.use.find((each) => each.stock === stock.id);
    expect(used).toBe(use?.used ?? 0);
    expect(use?.bought ?? 0).toBeGreaterThanOrEqual(used);
    if (stock.available !== "unlimited") expect(use?.bought ?? 0).toBeLessThanOrEqual(stock.available);
    const tier = stock.tiers?.findLast((each) => each.from <= (use?.bought ?? 0));
    if (use !== undefined) expect(use.each).toBe(tier?.each ?? stock.cost);
    price += (use?.bought ?? 0) * (use?.each ?? 0);
  }
  const sheets = plan.sheets.reduce((sum, each) => sum + each.times, 0);
  expect(plan.sheetCount).toBe(sheets);
  const handling = (job.costPerSheet ?? 0) * sheets + (job.costPerLayout ?? 0) * plan.layoutCount;
  expect(plan.cost).toBeCloseTo(price + handling, 6);
  if (plan.unplaced.length === 0) {
    expect(plan.leastSheets.value).toBeLessThanOrEqual(sheets);
    expect(plan.leastCost.value).toBeLessThanOrEqual(plan.cost + 1e-6);
  }
  expect(independentFaults(asNestJob(job, plan), asResult(job, plan))).toEqual([]);
}

function asNestJob(job: BatchJob, plan: BatchPlan): BatchJob {
  const counts = made(plan);
  const unplaced = new Map(plan.unplaced.map(({ part, count }) => [part, count]));
  return {
    ...job,
    parts: job.parts.map((part) => ({
      ...part,
      demand: (counts.get(part.id) ?? 0) + (unplaced.get(part.id) ?? 0),
    })),
  };
}

function asResult(job: BatchJob, { sheets, unplaced, yield: share, steps }: BatchPlan) {
  const price = new Map(job.stock.map((stock) => [stock.id, stock.cost]));
  const cost = sheets.reduce((sum, each) => sum + each.times * (price.get(each.stock) ?? 0), 0);
  return { sheets, unplaced, cost, yield: share, steps };
}
