import type { StockKind } from "../sheets/prepare.js";
import type { BatchJob, BatchStock } from "./batch-job.js";
import type { Master } from "./master.js";
import type { Cut } from "./pool.js";
import { allotted, restWorth } from "./rest-worth.js";
import { availableOf, priceAt, type StockShape, tiersOf } from "./shapes.js";

/** Copies wanted of each kind. */
export type Demand = readonly number[];

/** Layouts with how often each is cut, and the stock bought for them. */
export interface Choice {
  readonly cuts: readonly Cut[];
  readonly bought: ReadonlyMap<StockKind, number>;
  /** Copies that stay unmade. */
  readonly left: readonly number[];
  readonly cost: number;
  /** Worth of the rests, not taken off the cost. */
  readonly restWorth: number;
}

/** What a solver answered as a choice, or undefined when it breaks the rules of the data. */
export function checkedChoice(
  master: Master,
  times: readonly number[],
  bought: ReadonlyMap<StockKind, number>,
): Choice | undefined {
  const cuts = master.layouts.flatMap((layout, j) => {
    const count = times[j] as number;
    return count > 0 ? [{ layout, times: count }] : [];
  });
  if (times.some((count) => !Number.isSafeInteger(count) || count < 0)) return undefined;
  const choice = choiceOf(master, cuts, bought);
  return choice !== undefined && soundStock(master.job, master.shapes, choice) ? choice : undefined;
}

/** A choice from its cuts; buys the stock by rule where it is not given. Undefined when there is too little stock. */
export function choiceOf(
  { job, shapes, demand, restShare }: Pick<Master, "job" | "shapes" | "demand" | "restShare">,
  cuts: readonly Cut[],
  bought?: ReadonlyMap<StockKind, number>,
): Choice | undefined {
  const purchase = bought ?? purchased(job, shapes, cuts);
  if (purchase === undefined) return undefined;
  const left = demand.map((wanted, kind) => Math.max(0, wanted - madeOf(cuts, kind)));
  return {
    cuts,
    bought: purchase,
    left,
    cost: costOf(job, cuts, purchase),
    restWorth: restWorth(job, allotted(cuts, purchase), purchase, restShare),
  };
}

export function madeOf(cuts: readonly Cut[], kind: number): number {
  return cuts.reduce((sum, { layout, times }) => sum + times * (layout.counts[kind] as number), 0);
}

export function sheetsOf(cuts: readonly Cut[]): number {
  return cuts.reduce((sum, { times }) => sum + times, 0);
}

function costOf(job: BatchJob, cuts: readonly Cut[], bought: ReadonlyMap<StockKind, number>): number {
  let cost = (job.costPerSheet ?? 0) * sheetsOf(cuts) + (job.costPerLayout ?? 0) * cuts.length;
  for (const [piece, count] of bought) {
    cost += count * priceAt(job.stock[piece.index] as BatchStock, count);
  }
  return cost;
}

function soundStock(job: BatchJob, shapes: readonly StockShape[], { cuts, bought }: Choice): boolean {
  for (const [piece, count] of bought) {
    const stock = job.stock[piece.index] as BatchStock;
    if (count > availableOf(stock) || count < (tiersOf(stock)[0]?.from ?? 1)) return false;
  }
  return shapes.every((shape) => {
    const had = shape.pieces.reduce((sum, piece) => sum + (bought.get(piece) ?? 0), 0);
    return sheetsOf(cuts.filter(({ layout }) => layout.shape === shape)) <= had;
  });
}

/** Cheapest pieces first; more than needed where that costs less. */
function purchased(
  job: BatchJob,
  shapes: readonly StockShape[],
  cuts: readonly Cut[],
): Map<StockKind, number> | undefined {
  const bought = new Map<StockKind, number>();
  for (const shape of shapes) {
    let need = sheetsOf(cuts.filter(({ layout }) => layout.shape === shape));
    for (const piece of shape.pieces) {
      if (need === 0) break;
      const stock = job.stock[piece.index] as BatchStock;
      const available = availableOf(stock);
      const least = Math.max(Math.min(need, available), tiersOf(stock)[0]?.from ?? 1);
      if (least > available) continue;
      const counts = [least, ...tiersOf(stock).map((tier) => tier.from)];
      const worthwhile = counts.filter((count) => count >= least && count <= available);
      const cost = (count: number): number => count * priceAt(stock, count);
      const count = worthwhile.reduce((a, b) => (cost(b) < cost(a) ? b : a));
      bought.set(piece, count);
      need = Math.max(0, need - count);
    }
    if (need > 0) return undefined;
  }
  return bought;
}
