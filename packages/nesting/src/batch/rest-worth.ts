import { largestRest, placedBoxes } from "../rest.js";
import { placementsOf } from "../result.js";
import type { FilledSheet } from "../sheets/fill.js";
import type { Setup, StockKind } from "../sheets/prepare.js";
import type { BatchJob, BatchStock } from "./batch-job.js";
import type { Cut, SheetLayout } from "./pool.js";
import { lowestPrice, priceAt } from "./shapes.js";

/** The part of a sheet, by area, that a layout leaves as a rest worth keeping; 0 for none. */
export type RestShare = (layout: SheetLayout) => number;

/** Measures each layout once. Without a worth of rests in the job nothing is measured. */
export function restShares(setup: Setup, { rests, clearance }: BatchJob): RestShare {
  if (rests === undefined || rests.percent === 0) return () => 0;
  const known = new WeakMap<FilledSheet, number>();
  const parts = setup.kinds.map(({ part }) => part);
  return ({ shape, filled }) => {
    const measured = known.get(filled);
    if (measured !== undefined) return measured;
    const plates = placedBoxes(placementsOf(setup, filled), parts);
    const { stock } = shape.pieces[0] as StockKind;
    const rest = largestRest(stock, plates, clearance, rests);
    const share = rest === undefined ? 0 : ((rest.maxX - rest.minX) * (rest.maxY - rest.minY)) / shape.area;
    known.set(filled, share);
    return share;
  };
}

/** Cuts on the pieces they are cut from: pieces at hand first, and the most frequent layout first. */
export interface Allotted {
  readonly layout: SheetLayout;
  readonly piece: StockKind;
  readonly times: number;
}

/** What the rests of the cuts, and the whole pieces left over, are worth at the prices paid. */
export function restWorth(
  { rests, stock }: BatchJob,
  allotted: readonly Allotted[],
  bought: ReadonlyMap<StockKind, number>,
  shareOf: RestShare,
): number {
  if (rests === undefined) return 0;
  const left = new Map(bought);
  const price = (piece: StockKind): number =>
    priceAt(stock[piece.index] as BatchStock, bought.get(piece) ?? 0);
  let worth = 0;
  for (const { layout, piece, times } of allotted) {
    worth += times * price(piece) * shareOf(layout);
    left.set(piece, (left.get(piece) ?? 0) - times);
  }
  for (const [piece, count] of left) worth += Math.max(0, count) * price(piece);
  return (worth * rests.percent) / 100;
}

/** Worth of one layout's rest for sure: at the lowest price any piece of its shape has, which is none where one is at hand. */
export function leastRestWorth({ rests, stock }: BatchJob, layout: SheetLayout, shareOf: RestShare): number {
  if (rests === undefined) return 0;
  const least = Math.min(
    ...layout.shape.pieces.map((piece) => lowestPrice(stock[piece.index] as BatchStock)),
  );
  return (shareOf(layout) * least * rests.percent) / 100;
}

/** See `Allotted`. Cuts for which nothing was bought are left out. */
export function allotted(cuts: readonly Cut[], bought: ReadonlyMap<StockKind, number>): Allotted[] {
  const had = new Map(bought);
  return orderedCuts(cuts).flatMap(({ layout, times }) => {
    let open = times;
    return layout.shape.pieces.flatMap((piece): Allotted[] => {
      const count = Math.min(open, had.get(piece) ?? 0);
      if (count === 0) return [];
      had.set(piece, (had.get(piece) as number) - count);
      open -= count;
      return [{ layout, piece, times: count }];
    });
  });
}

/** By shape, the most frequent first: the sheet that is cut once, with the rest on it, comes last. */
function orderedCuts(cuts: readonly Cut[]): Cut[] {
  return cuts.toSorted(
    (a, b) =>
      a.layout.shape.index - b.layout.shape.index ||
      b.times - a.times ||
      b.layout.filled.area - a.layout.filled.area,
  );
}
