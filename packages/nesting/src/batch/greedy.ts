import { type Choice, choiceOf } from "./choice.js";
import type { Master } from "./master.js";
import type { Cut, SheetLayout } from "./pool.js";
import { availableOf, type StockShape, tiersOf } from "./shapes.js";

/**
 * Covers a demand by rule: again and again the layout that makes the most wanted plate area for its price, as often as
 * all of its plates are wanted. Needs no solver; a first plan, and the plan where there is none.
 */
export function greedyChoice(master: Master): Choice {
  const { layouts, shapes, demand, job, areas } = master;
  const left = [...demand];
  const had = new Map(shapes.map((shape) => [shape, piecesOf(master, shape)]));
  const cuts = new Map<SheetLayout, number>();
  for (;;) {
    let best: { layout: SheetLayout; rate: number } | undefined;
    for (const layout of layouts) {
      if ((had.get(layout.shape) as number) === 0) continue;
      const area = wantedArea(layout, left, areas);
      if (area === 0) continue;
      const free = layout.shape.pieces.some((piece) => job.stock[piece.index]?.cost === 0);
      const rate = area / (free ? 1e-9 * layout.shape.price : layout.shape.price);
      if (best === undefined || rate > best.rate * (1 + 1e-12)) best = { layout, rate };
    }
    if (best === undefined) break;
    const { layout } = best;
    const times = Math.min(had.get(layout.shape) as number, repeats(layout, left));
    cuts.set(layout, (cuts.get(layout) ?? 0) + times);
    had.set(layout.shape, (had.get(layout.shape) as number) - times);
    layout.counts.forEach((count, kind) => {
      left[kind] = Math.max(0, (left[kind] as number) - times * count);
    });
  }
  return bought(
    master,
    [...cuts].map(([layout, times]) => ({ layout, times })),
  );
}

/** The choice; where the least quantity sold is more than can be had, without the sheets of that stock. */
function bought(master: Master, cuts: readonly Cut[]): Choice {
  const choice = choiceOf(master, cuts);
  if (choice !== undefined) return choice;
  const possible = cuts.filter(({ layout }) => {
    const own = cuts.filter((cut) => cut.layout.shape === layout.shape);
    return choiceOf(master, own) !== undefined;
  });
  return choiceOf(master, possible) as Choice;
}

/** Pieces that can be had; none of a stock of which fewer can be had than are sold at least. */
function piecesOf({ job }: Master, shape: StockShape): number {
  return shape.pieces.reduce((sum, piece) => {
    const stock = job.stock[piece.index];
    if (stock === undefined || (tiersOf(stock)[0]?.from ?? 1) > availableOf(stock)) return sum;
    return sum + availableOf(stock);
  }, 0);
}

function wantedArea({ counts }: SheetLayout, left: readonly number[], areas: readonly number[]): number {
  return counts.reduce((sum, count, kind) => {
    return sum + Math.min(count, left[kind] as number) * (areas[kind] as number);
  }, 0);
}

/** As often as every plate on it is wanted; once when some are not. */
function repeats({ counts }: SheetLayout, left: readonly number[]): number {
  let times = Number.POSITIVE_INFINITY;
  counts.forEach((count, kind) => {
    if (count > 0) times = Math.min(times, Math.floor((left[kind] as number) / count));
  });
  return Math.max(1, times);
}
