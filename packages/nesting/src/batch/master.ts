import { signedArea } from "@keelcut/geometry";
import type { StockKind } from "../sheets/prepare.js";
import type { BatchJob, BatchStock } from "./batch-job.js";
import { type Choice, checkedChoice, type Demand, isFree } from "./choice.js";
import type { SheetLayout } from "./pool.js";
import { leastRestWorth, type RestShare } from "./rest-worth.js";
import { availableOf, type StockShape, tiersOf } from "./shapes.js";
import type { ModelRow, ModelVariable, Solver } from "./solver.js";

/** What the master programme decides over. */
export interface Master {
  readonly job: BatchJob;
  readonly shapes: readonly StockShape[];
  readonly layouts: readonly SheetLayout[];
  readonly demand: Demand;
  /** Net area of one copy of each kind, mm2. */
  readonly areas: readonly number[];
  readonly restShare: RestShare;
}

/** How the distinct layouts count. */
export interface LayoutRule {
  /** Most distinct layouts. */
  readonly most?: number;
  /** Cost of each distinct layout; a small one only decides between plans that are equally cheap otherwise. */
  readonly each: number;
  /** Two plans that differ by less are equally good. */
  readonly gap: number;
}

/** Nodes of the search without and with a count of layouts. */
const NODES = 400;
const COUNTING_NODES = 150;

/**
 * The cheapest choice of layouts that covers the demand: each layout a whole number of times, stock bought at the tier
 * of its quantity and no more than there is. What cannot be covered is left at a penalty above any price. With a rule
 * for layouts they are counted, which is much harder; the search then starts from nothing and may end early.
 *
 * The answer is made whole and checked against the data; undefined when there is none or it fails the check.
 */
export async function cheapestChoice(
  master: Master,
  solver: Solver,
  rule: LayoutRule | undefined,
): Promise<{ choice: Choice; proved: boolean } | undefined> {
  const { variables, rows, stockOf } = integerModel(master, rule);
  const gap = rule === undefined ? (9 / 10) * granule(master.job) : rule.gap;
  const solution = await solver(variables, rows, {
    nodes: rule === undefined ? NODES : COUNTING_NODES,
    gap,
  });
  if (solution === undefined) return undefined;
  const times = master.layouts.map((_, j) => Math.round(solution.values[j] as number));
  const bought = new Map<StockKind, number>();
  for (const [index, stock] of stockOf) {
    const count = Math.round(solution.values[index] as number);
    if (count > 0) bought.set(stock, (bought.get(stock) ?? 0) + count);
  }
  const choice = checkedChoice(master, times, bought);
  return choice && { choice, proved: solution.status === "optimal" };
}

/** What plates and sheets are worth in the linear relaxation, at lowest prices and with no limit on stock. */
export interface Worths {
  /** What one more copy of each kind costs. */
  readonly plates: readonly number[];
  readonly cost: number;
}

/** Worths of the plates of the given mix; undefined when the layouts cannot make every kind. */
export async function worthsOf(
  layouts: readonly SheetLayout[],
  mix: readonly number[],
  solver: Solver,
): Promise<Worths | undefined> {
  const wanted = mix.flatMap((count, kind) => (count > 0 ? [kind] : []));
  const rowOf = new Map(wanted.map((kind, row) => [kind, row]));
  const variables = layouts.map(
    ({ shape, counts }): ModelVariable => ({
      cost: shape.price,
      kind: "continuous",
      column: new Map(wanted.flatMap((kind) => entry(rowOf.get(kind) as number, counts[kind] as number))),
    }),
  );
  const rows = wanted.map((kind): ModelRow => ({ sense: ">=", limit: 1000 * (mix[kind] as number) }));
  const solution = await solver(variables, rows);
  if (solution === undefined) return undefined;
  const plates = mix.map((_, kind) => {
    const row = rowOf.get(kind);
    return row === undefined ? 0 : Math.max(0, solution.duals[row] as number);
  });
  return {
    plates,
    cost: wanted.reduce((sum, kind) => sum + (plates[kind] as number) * (mix[kind] as number), 0),
  };
}

/**
 * Worths by the layouts on some shapes, where those can make every kind, else by all: a cheap sheet of which there are two
 * says nothing about what the plates on all the others are worth.
 */
export async function lastingWorths(
  layouts: readonly SheetLayout[],
  mix: readonly number[],
  shapes: readonly StockShape[],
  solver: Solver,
): Promise<Worths | undefined> {
  const own = layouts.filter(({ shape }) => shapes.includes(shape));
  const makes = (kind: number): boolean => own.some(({ counts }) => (counts[kind] as number) > 0);
  const all = mix.every((count, kind) => count === 0 || makes(kind));
  return worthsOf(all ? own : layouts, mix, solver);
}

function integerModel(
  { job, shapes, layouts, demand, restShare }: Master,
  rule: LayoutRule | undefined,
): { variables: ModelVariable[]; rows: ModelRow[]; stockOf: Map<number, StockKind> } {
  const rows: ModelRow[] = demand.map((wanted) => ({ sense: ">=", limit: wanted }));
  const kinds = demand.length;
  for (const _ of shapes) rows.push({ sense: "<=", limit: 0 });
  const variables: ModelVariable[] = layouts.map((layout) => ({
    cost: (job.costPerSheet ?? 0) - leastRestWorth(job, layout, restShare),
    kind: "integer",
    column: new Map([
      ...layout.counts.flatMap((count, kind) => entry(kind, count)),
      [kinds + layout.shape.index, 1] as const,
    ]),
  }));
  const most = mostSheets(demand);
  const stockOf = addStock(job, shapes, kinds, most, variables, rows, withFreeArea(job, shapes, most));
  const penalty = penaltyOf(job, shapes, rule);
  demand.forEach((wanted, kind) => {
    if (wanted === 0) return;
    variables.push({ cost: penalty, upper: wanted, kind: "integer", column: new Map([[kind, 1]]) });
  });
  if (rule !== undefined) countLayouts(layouts, demand, rule, variables, rows);
  return { variables, rows, stockOf };
}

/**
 * Adds the pieces bought of each stock at each of its tiers: none, or at least the tier's quantity. They supply the row
 * of their shape; the first shape's row is given.
 */
export function addStock(
  job: BatchJob,
  shapes: readonly StockShape[],
  firstRow: number,
  most: number,
  variables: ModelVariable[],
  rows: ModelRow[],
  priceOf: (each: number, stock: BatchStock) => number = (each) => each,
): Map<number, StockKind> {
  const stockOf = new Map<number, StockKind>();
  for (const shape of shapes) {
    for (const piece of shape.pieces) {
      const stock = job.stock[piece.index] as BatchStock;
      const tiers = tiersOf(stock);
      const available = availableOf(stock);
      const plain = tiers.length === 1 && tiers[0]?.from === 1;
      const single = plain ? -1 : rows.push({ sense: "<=", limit: 1 }) - 1;
      for (const tier of tiers) {
        const upper = Math.min(available, Math.max(most, tier.from));
        if (upper < tier.from) continue;
        const column = new Map([[firstRow + shape.index, -1]]);
        stockOf.set(variables.length, piece);
        variables.push({ cost: priceOf(tier.each, stock), upper, kind: "integer", column });
        if (plain) continue;
        const least = rows.push({ sense: ">=", limit: 0 }) - 1;
        const greatest = rows.push({ sense: "<=", limit: 0 }) - 1;
        column.set(least, 1).set(greatest, 1);
        const taken = new Map([
          [single, 1],
          [least, -tier.from],
          [greatest, -upper],
        ]);
        variables.push({ cost: 0, upper: 1, kind: "integer", column: taken });
      }
    }
  }
  return stockOf;
}

function countLayouts(
  layouts: readonly SheetLayout[],
  demand: Demand,
  rule: LayoutRule,
  variables: ModelVariable[],
  rows: ModelRow[],
): void {
  const total = rule.most === undefined ? -1 : rows.push({ sense: "<=", limit: rule.most }) - 1;
  layouts.forEach(({ counts }, j) => {
    const most = Math.max(
      ...counts.map((count, kind) => (count > 0 ? Math.ceil((demand[kind] as number) / count) : 0)),
    );
    const row = rows.push({ sense: "<=", limit: 0 }) - 1;
    const times = variables[j] as ModelVariable;
    variables[j] = { ...times, column: new Map(times.column).set(row, 1) };
    const column = new Map([[row, -most]]);
    if (total >= 0) column.set(total, 1);
    variables.push({ cost: rule.each, upper: 1, kind: "integer", column });
  });
}

/**
 * Prices with so small a price for what costs nothing that it decides between plans of equal cost only: the least of it is
 * used up.
 */
function withFreeArea(
  job: BatchJob,
  shapes: readonly StockShape[],
  most: number,
): (each: number, stock: BatchStock) => number {
  const pieces = shapes.flatMap((shape) => shape.pieces.map((piece) => job.stock[piece.index] as BatchStock));
  const area = pieces
    .filter(isFree)
    .reduce((sum, stock) => sum + Math.min(most, availableOf(stock)) * signedArea(stock.outline), 0);
  if (area === 0) return (each) => each;
  const rate = granule(job) / (20 * area);
  return (each, stock) => (isFree(stock) ? rate * signedArea(stock.outline) : each);
}

/** Leaving a copy out must cost more than any way to make it. */
function penaltyOf(job: BatchJob, shapes: readonly StockShape[], rule: LayoutRule | undefined): number {
  const dearest = shapes.flatMap((shape) =>
    shape.pieces.flatMap((piece) =>
      tiersOf(job.stock[piece.index] as BatchStock).map((tier) => tier.from * tier.each),
    ),
  );
  return 10 * (Math.max(1, ...dearest) + (job.costPerSheet ?? 0) + (rule?.each ?? 0));
}

/**
 * The greatest unit of which all costs are whole multiples, down to a hundred-thousandth of the least of them: two plans
 * of different cost differ by at least this, and by a thousandth of it where rests have a worth, which is worth telling.
 */
export function granule(job: BatchJob): number {
  const costs = [
    ...job.stock.flatMap((stock) => tiersOf(stock).map((tier) => tier.each)),
    job.costPerSheet ?? 0,
    job.costPerLayout ?? 0,
  ];
  const positive = costs.filter((cost) => cost > 0);
  if (positive.length === 0) return 1;
  const unit = Math.min(...positive) / 1e5;
  let common = 0;
  for (const cost of positive) common = greatestCommonDivisor(common, cost, unit);
  return job.rests === undefined ? common : common / 1000;
}

function greatestCommonDivisor(a: number, b: number, unit: number): number {
  let [large, small] = [Math.max(a, b), Math.min(a, b)];
  while (small > unit) [large, small] = [small, Math.abs(large - Math.round(large / small) * small)];
  return large;
}

/** No plan cuts more sheets than there are plates. */
function mostSheets(demand: Demand): number {
  return demand.reduce((sum, wanted) => sum + wanted, 0);
}

function entry(row: number, coefficient: number): [number, number][] {
  return coefficient === 0 ? [] : [[row, coefficient]];
}
