import type { Layout, LayoutSheet } from "./construct.js";
import type { Setup } from "./prepare.js";

/** How good a layout is; compared entry by entry, less is better. */
export type Rank = readonly [unplacedWorth: number, price: number, tail: number, freeArea: number];

/**
 * Worth of the plates that found no sheet, price of the sheets, and how full the emptiest bought sheet is: the share
 * of its area that carries plates (the nearer to none, the sooner a sheet can be saved) plus the share of its length
 * that is used (the less, the larger the rest in one piece). Last the area of the free stock used.
 */
export function rank(setup: Setup, layout: Layout): Rank {
  const worth = layout.left.reduce((sum, count, index) => {
    const kind = setup.kinds[index];
    return kind === undefined ? sum : sum + count * (kind.part.value ?? kind.area);
  }, 0);
  const price = layout.sheets.reduce((sum, sheet) => sum + sheet.times * sheet.stock.price, 0);
  const tails = layout.sheets.filter((sheet) => sheet.stock.price > 0).map(fullness);
  const free = layout.sheets.filter((sheet) => sheet.stock.price === 0);
  const freeArea = free.reduce((sum, sheet) => sum + sheet.times * sheet.stock.area, 0);
  return [worth, price, tails.length > 0 ? Math.min(...tails) : 0, freeArea];
}

export function better(a: Rank, b: Rank): boolean {
  for (const [index, value] of a.entries()) {
    const other = b[index];
    const noise = 1e-9 * Math.max(1, Math.abs(other));
    if (value < other - noise) return true;
    if (value > other + noise) return false;
  }
  return false;
}

/** Share of a sheet's area that carries plates plus share of its length that is used. */
export function fullness(sheet: LayoutSheet): number {
  return sheet.area / sheet.stock.area + usedShare(sheet);
}

function usedShare(sheet: LayoutSheet): number {
  const { minX, maxX } = sheet.model.limits;
  return sheet.used / (maxX - minX);
}
