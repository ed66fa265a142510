import type { SheetModel } from "../sheets/board.js";
import type { Setup, StockKind } from "../sheets/prepare.js";
import type { BatchJob, BatchStock, PriceTier } from "./batch-job.js";

/** Stock of the same outline and keep-outs: what fits one piece fits all, so they share layouts. */
export interface StockShape {
  readonly index: number;
  /** Cheapest first, so pieces at hand come before those to be bought. */
  readonly pieces: readonly StockKind[];
  readonly along: SheetModel;
  readonly across: SheetModel;
  /** Whole area of one piece, mm2. */
  readonly area: number;
  /** What a layout on it must earn to be worth while: its lowest price, or its area at the usual rate when it is free. */
  readonly price: number;
  /** Kinds of plates that fit on it, by index. */
  readonly holds: ReadonlySet<number>;
}

/** The shapes among a job's stock, in the order of their first piece. */
export function stockShapes(setup: Setup, job: BatchJob): StockShape[] {
  const groups = new Map<string, StockKind[]>();
  for (const kind of setup.stock) {
    const key = JSON.stringify([kind.stock.outline, kind.stock.keepOuts]);
    groups.set(key, [...(groups.get(key) ?? []), kind]);
  }
  const priceOf = (kind: StockKind): number => lowestPrice(job.stock[kind.index] as BatchStock);
  const rates = setup.stock.flatMap((kind) => (priceOf(kind) > 0 ? [priceOf(kind) / kind.area] : []));
  const rate = rates.length > 0 ? Math.min(...rates) : 1;
  return [...groups.values()].map((members, index) => {
    const pieces = members.toSorted((a, b) => priceOf(a) - priceOf(b) || a.index - b.index);
    const first = pieces[0] as StockKind;
    const priced = pieces.map(priceOf).filter((price) => price > 0);
    const { along, across, area, holds } = first;
    const price = (priced.length > 0 ? Math.min(...priced) : area * rate) + (job.costPerSheet ?? 0);
    return { index, pieces, along, across, area, price, holds };
  });
}

/** Whether any number of pieces of a shape can be had. */
export function isEndless({ pieces }: StockShape): boolean {
  return pieces.some(({ stock }) => stock.available === "unlimited");
}

/** A stock's price list. */
export function tiersOf(stock: BatchStock): readonly PriceTier[] {
  return stock.tiers ?? [{ from: 1, each: stock.cost }];
}

/** The least that one piece can cost, however many are bought. */
export function lowestPrice(stock: BatchStock): number {
  return Math.min(...tiersOf(stock).map((tier) => tier.each));
}

/** Price of one when so many are bought. */
export function priceAt(stock: BatchStock, count: number): number {
  const tiers = tiersOf(stock);
  return (tiers.findLast((tier) => tier.from <= count) ?? (tiers[0] as PriceTier)).each;
}

/** Pieces that can be had. */
export function availableOf(stock: BatchStock): number {
  return stock.available === "unlimited" ? Number.POSITIVE_INFINITY : stock.available;
}
