import type { Setup } from "../sheets/prepare.js";
import { areaMeasure } from "./area-measure.js";
import type { BatchJob, BatchStock, Bound } from "./batch-job.js";
import { discMeasures } from "./disc-measure.js";
import type { Measure } from "./measure.js";
import { availableOf, type StockShape, tiersOf } from "./shapes.js";
import type { ModelRow, ModelVariable, Solver } from "./solver.js";

/** What no plan for a demand can do without. */
export interface Bounds {
  readonly sheets: Bound;
  readonly cost: Bound;
}

/**
 * Lower bounds of the sheets and of the cost of any plan: the least stock whose capacity suffices by every measure at
 * once. With a solver whole pieces at their tiers' prices and no more than there are; without one by each measure alone.
 */
export async function boundsOf(
  setup: Setup,
  shapes: readonly StockShape[],
  job: BatchJob,
  demand: readonly number[],
  solver: Solver | undefined,
): Promise<Bounds> {
  const wanted = demand.some((count) => count > 0);
  if (!wanted) return { sheets: nothing(), cost: nothing() };
  const measures = [areaMeasure(setup, shapes, demand), ...discMeasures(setup, shapes, demand)];
  const needs = measures.map((measure) => needOf(measure, demand));
  const alone = measures.map((measure, index) => ({
    measure,
    sheets: (needs[index] as number) / Math.max(...measure.capacities),
    cost: simpleCost(job, shapes, measure, needs[index] as number),
  }));
  const bySheets = alone.reduce((a, b) => (b.sheets > a.sheets * (1 + 1e-9) ? b : a));
  const byCost = alone.reduce((a, b) => (b.cost > a.cost * (1 + 1e-9) ? b : a));
  let sheets = Math.max(1, Math.ceil(bySheets.sheets - 1e-6));
  let cost = byCost.cost;
  if (solver !== undefined) {
    const count = await leastStock(job, shapes, measures, needs, solver, () => 1);
    const money = await leastStock(job, shapes, measures, needs, solver, undefined);
    sheets = Math.max(sheets, Math.round(count ?? 0));
    cost = Math.max(cost, money ?? 0);
  }
  return {
    sheets: { value: sheets, because: bySheets.measure.because },
    cost: { value: cost + (job.costPerLayout ?? 0), because: byCost.measure.because },
  };
}

function nothing(): Bound {
  return { value: 0, because: "nothing is wanted that any stock holds" };
}

/** The worth of the demand by a measure; a hair less, so that rounding never lifts a bound. */
function needOf(measure: Measure, demand: readonly number[]): number {
  const need = demand.reduce((sum, count, kind) => sum + count * (measure.weights[kind] as number), 0);
  return need * (1 - 1e-9);
}

/** By one measure alone and in fractions of sheets: free stock first, the rest at the best rate of any stock. */
function simpleCost(
  job: BatchJob,
  shapes: readonly StockShape[],
  { capacities }: Measure,
  need: number,
): number {
  const each = job.costPerSheet ?? 0;
  const offers = shapes.flatMap((shape) =>
    shape.pieces.map((piece) => {
      const stock = job.stock[piece.index] as BatchStock;
      const price = Math.min(...tiersOf(stock).map((tier) => tier.each)) + each;
      const capacity = capacities[shape.index] as number;
      return { price, capacity, most: availableOf(stock) };
    }),
  );
  let open = need;
  let cost = 0;
  for (const { price, capacity, most } of offers.toSorted(
    (a, b) => a.price / a.capacity - b.price / b.capacity,
  )) {
    if (open <= 0 || capacity <= 0) continue;
    const pieces = Math.min(most, open / capacity);
    cost += pieces * price;
    open -= pieces * capacity;
  }
  return cost;
}

/** The cheapest whole pieces that suffice by every measure; undefined when the stock does not, or the search is stopped. */
async function leastStock(
  job: BatchJob,
  shapes: readonly StockShape[],
  measures: readonly Measure[],
  needs: readonly number[],
  solver: Solver,
  priceOf: (() => number) | undefined,
): Promise<number | undefined> {
  // Each row is scaled to sheets of the roomiest shape, so that the solver's tolerance is a millionth of a sheet.
  const scale = measures.map(({ capacities }) => 1 / Math.max(...capacities));
  const rows: ModelRow[] = needs.map((need, row) => ({
    sense: ">=",
    limit: need * (scale[row] as number) - 1e-6,
  }));
  const most = Math.ceil(needs.reduce((sum, need, row) => sum + need * (scale[row] as number), 0)) + 1;
  const variables: ModelVariable[] = [];
  const costs: number[] = [];
  for (const shape of shapes) {
    const capacity = measures.map(({ capacities }, row): [number, number] => [
      row,
      (capacities[shape.index] as number) * (scale[row] as number),
    ]);
    for (const piece of shape.pieces) {
      const stock = job.stock[piece.index] as BatchStock;
      for (const tier of tiersOf(stock)) {
        const available = availableOf(stock);
        const cost = (priceOf?.() ?? tier.each) + (priceOf ? 0 : (job.costPerSheet ?? 0));
        // A tier may be used below its quantity by paying for the whole quantity: a relaxation when taken as its lowest price.
        const upper = Math.min(available, Math.max(most, tier.from) * 1000);
        variables.push({ cost, upper, kind: "integer", column: new Map(capacity) });
        costs.push(cost);
      }
    }
  }
  const solution = await solver(variables, rows, { nodes: 2000, gap: 0 });
  if (solution === undefined || solution.status !== "optimal") return undefined;
  return costs.reduce((sum, cost, index) => sum + cost * Math.round(solution.values[index] as number), 0);
}
