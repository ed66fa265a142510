import { signedArea } from "@keelcut/geometry";
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
  /** Area of the pieces used that cost nothing, mm2: what is at hand is used up all the same. */
  readonly freeArea: number;
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
    freeArea: freeAreaOf(job, purchase),
  };
}

function freeAreaOf(job: BatchJob, bought: ReadonlyMap<StockKind, number>): number {
  let area = 0;
  for (const [piece, count] of bought) {
    const stock = job.stock[piece.index] as BatchStock;
    if (isFree(stock)) area += count * signedArea(stock.outline);
  }
  return area;
}

/** True for stock that costs nothing: what is at hand. */
export function isFree(stock: BatchStock): boolean {
  return tiersOf(stock).every((tier) => tier.each === 0);
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

/** The stock for the cuts, shape by shape, at the least cost found; undefined when there is too little. */
function purchased(
  job: BatchJob,
  shapes: readonly StockShape[],
  cuts: readonly Cut[],
): Map<StockKind, number> | undefined {
  const bought = new Map<StockKind, number>();
  for (const shape of shapes) {
    const need = sheetsOf(cuts.filter(({ layout }) => layout.shape === shape));
    let best: Purchase | undefined;
    for (const order of orders(shape.pieces)) {
      const found = inOrder(job, order, need);
      if (found !== undefined && (best === undefined || found.cost < best.cost)) best = found;
    }
    if (best === undefined) return undefined;
    for (const [piece, count] of best.bought) bought.set(piece, count);
  }
  return bought;
}

interface Purchase {
  readonly bought: readonly (readonly [StockKind, number])[];
  readonly cost: number;
}

/** As many of each piece in turn as are needed and can be had; more than needed where that costs less. */
function inOrder(job: BatchJob, pieces: readonly StockKind[], wanted: number): Purchase | undefined {
  const bought: [StockKind, number][] = [];
  let cost = 0;
  let need = wanted;
  for (const piece of pieces) {
    if (need === 0) break;
    const stock = job.stock[piece.index] as BatchStock;
    const available = availableOf(stock);
    const least = Math.max(Math.min(need, available), tiersOf(stock)[0]?.from ?? 1);
    if (least > available) continue;
    const counts = [least, ...tiersOf(stock).map((tier) => tier.from)];
    const worthwhile = counts.filter((count) => count >= least && count <= available);
    const costOfSome = (count: number): number => count * priceAt(stock, count);
    const count = worthwhile.reduce((a, b) => (costOfSome(b) < costOfSome(a) ? b : a));
    bought.push([piece, count]);
    cost += costOfSome(count);
    need = Math.max(0, need - count);
  }
  return need > 0 ? undefined : { bought, cost };
}

/** The pieces as they come, and with each of them first: which is best depends on how many are needed. */
function orders(pieces: readonly StockKind[]): (readonly StockKind[])[] {
  return [pieces, ...pieces.slice(1).map((first) => [first, ...pieces.filter((piece) => piece !== first)])];
}
