import type { Setup } from "../sheets/prepare.js";
import { areaMeasure, filledAreaMeasures } from "./area-measure.js";
import type { BatchJob, BatchStock, Bound } from "./batch-job.js";
import { discMeasures } from "./disc-measure.js";
import { addStock } from "./master.js";
import type { Measure } from "./measure.js";
import { patternMeasure } from "./pattern-measure.js";
import { rectangleMeasures } from "./rectangle-measure.js";
import { availableOf, lowestPrice, type StockShape } from "./shapes.js";
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
  const given = measuresOf(setup, shapes, demand);
  const prices = shapes.map((shape) => shape.price);
  const counts = shapes.map(() => 1);
  const bySheets = await bounded(job, shapes, given, counts, demand, solver, "sheets");
  const byCost = await bounded(job, shapes, given, prices, demand, solver, "cost");
  return {
    sheets: { ...bySheets, value: Math.max(1, Math.ceil(bySheets.value - 1e-6)) },
    cost: { ...byCost, value: byCost.value + (job.costPerLayout ?? 0) },
  };
}

/** Every way to count the wanted plates; the first is their area. */
export function measuresOf(
  setup: Setup,
  shapes: readonly StockShape[],
  demand: readonly number[],
): [Measure, ...Measure[]] {
  return [
    areaMeasure(setup, shapes, demand),
    ...filledAreaMeasures(setup, shapes, demand),
    ...discMeasures(setup, shapes, demand),
    ...rectangleMeasures(setup, shapes, demand),
  ];
}

/** The best bound by one measure, or by all of them in whole pieces when there is a solver. */
async function bounded(
  job: BatchJob,
  shapes: readonly StockShape[],
  given: readonly Measure[],
  prices: readonly number[],
  demand: readonly number[],
  solver: Solver | undefined,
  unit: Unit,
): Promise<Bound> {
  const joint = solver && (await patternMeasure(given, prices, demand, solver));
  const measures = joint ? [...given, joint] : given;
  const needs = measures.map((measure) => needOf(measure, demand));
  const alone = measures.map((measure, index) => ({
    because: measure.because,
    value: simpleCost(job, shapes, measure, needs[index] as number, unit),
  }));
  const best = alone.reduce((a, b) => (b.value > a.value * (1 + 1e-6) ? b : a));
  const whole = solver && (await leastStock(job, shapes, measures, needs, demand, solver, unit));
  return { ...best, value: Math.max(best.value, whole ?? 0) };
}

/** Whether each piece counts one or its price. */
type Unit = "sheets" | "cost";

function worthOfPiece(job: BatchJob, each: number, unit: Unit): number {
  return unit === "sheets" ? 1 : each + (job.costPerSheet ?? 0);
}

function nothing(): Bound {
  return { value: 0, because: "nothing is wanted that any stock holds" };
}

/** The worth of the demand by a measure; a hair less, so that rounding never lifts a bound. */
function needOf(measure: Measure, demand: readonly number[]): number {
  const need = demand.reduce((sum, count, kind) => sum + count * (measure.weights[kind] as number), 0);
  return need * (1 - 1e-7);
}

/** By one measure alone and in fractions of sheets: free stock first, the rest at the best rate of any stock. */
function simpleCost(
  job: BatchJob,
  shapes: readonly StockShape[],
  { capacities }: Measure,
  need: number,
  unit: Unit,
): number {
  const offers = shapes
    .flatMap((shape) =>
      shape.pieces.map((piece) => {
        const stock = job.stock[piece.index] as BatchStock;
        const price = worthOfPiece(job, lowestPrice(stock), unit);
        return { price, capacity: capacities[shape.index] as number, most: availableOf(stock) };
      }),
    )
    .filter(({ capacity }) => capacity > 0);
  let open = need;
  let cost = 0;
  for (const { price, capacity, most } of offers.toSorted(
    (a, b) => a.price / a.capacity - b.price / b.capacity,
  )) {
    if (open <= 0) break;
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
  demand: readonly number[],
  solver: Solver,
  unit: Unit,
): Promise<number | undefined> {
  // Each row is scaled to sheets of the roomiest shape, so that the solver's tolerance is a millionth of a sheet.
  const scale = measures.map(({ capacities }) => 1 / Math.max(...capacities));
  const rows: ModelRow[] = needs.map((need, row) => ({
    sense: ">=",
    limit: need * (scale[row] as number) - 1e-6,
  }));
  const most = demand.reduce((sum, count) => sum + count, 0);
  for (const _ of shapes) rows.push({ sense: "<=", limit: 0 });
  const variables = shapes.map((shape): ModelVariable => {
    const column = new Map(
      measures.map(({ capacities }, row): [number, number] => [
        row,
        (capacities[shape.index] as number) * (scale[row] as number),
      ]),
    );
    column.set(measures.length + shape.index, 1);
    return { cost: unit === "sheets" ? 1 : (job.costPerSheet ?? 0), kind: "integer", column };
  });
  const prices = (each: number): number => (unit === "sheets" ? 0 : each);
  addStock(job, shapes, measures.length, most, variables, rows, prices);
  const solution = await solver(variables, rows, { nodes: 2000, gap: 0 });
  if (solution?.status !== "optimal") return undefined;
  return variables.reduce(
    (sum, { cost }, index) => sum + cost * Math.round(solution.values[index] as number),
    0,
  );
}
