import type { Budget } from "../budget.js";
import { type FilledSheet, fillInOrder, type Manner, type Pace } from "./fill.js";
import type { PlateKind } from "./kind.js";
import type { Setup, StockKind } from "./prepare.js";

/** One way to build a layout: everything a construction depends on. */
export interface Plan {
  readonly manner: Manner;
  /** Kinds of plates in the order they are laid, one entry a copy. */
  readonly order: readonly number[];
  /** Fill sheets along their shorter side. */
  readonly across: boolean;
  /** Factor on each stock's price, or on a free one's area, when a sheet is chosen, by `StockKind.index`; 1 is the truth. */
  readonly lean: readonly number[];
}

/** What is to be laid on what. */
export interface Task {
  /** Copies by kind of plate. */
  readonly left: readonly number[];
  /** Pieces by kind of stock. */
  readonly had: ReadonlyMap<StockKind, number>;
}

export function wholeTask(setup: Setup): Task {
  return {
    left: setup.kinds.map((kind) => kind.part.demand),
    had: new Map(setup.stock.map((stock) => [stock, pieces(stock)])),
  };
}

export interface LayoutSheet extends FilledSheet {
  readonly stock: StockKind;
  readonly times: number;
}

export interface Layout {
  readonly sheets: readonly LayoutSheet[];
  /** Copies of each kind that found no sheet. */
  readonly left: readonly number[];
}

/**
 * Lays plates sheet by sheet until none are left or no stock is. Free stock is used up first. For each bought sheet
 * every kind of stock is filled for trial, and the one with the least price to the end, as far as one can tell, is
 * taken; it is cut again as long as there are plates and stock for the same layout. Undefined when told to stop.
 */
export async function construct(
  setup: Setup,
  task: Task,
  plan: Plan,
  budget: Budget,
  pace: Pace,
): Promise<Layout | undefined> {
  const left = [...task.left];
  const had = new Map(task.had);
  const sheets: LayoutSheet[] = [];
  const fill = (stock: StockKind): Promise<FilledSheet | undefined> =>
    fillInOrder(
      plan.across ? stock.across : stock.along,
      setup.kinds,
      plan.order,
      left,
      plan.manner,
      budget,
      pace,
    );
  for (;;) {
    const usable = setup.stock.filter(
      (stock) => (had.get(stock) ?? 0) > 0 && left.some((count, kind) => count > 0 && stock.holds.has(kind)),
    );
    const best =
      (await freeSheet(setup, plan, usable, left, fill)) ??
      (await boughtSheet(setup, plan, usable, left, fill));
    if (best === "stopped") return undefined;
    if (best === undefined) return { sheets, left };
    const times = repeats(best, left, had.get(best.stock) ?? 0);
    sheets.push({ ...best, times });
    had.set(best.stock, (had.get(best.stock) ?? 0) - times);
    best.counts.forEach((count, index) => {
      left[index] = left[index] - times * count;
    });
  }
}

type Filled = FilledSheet & { readonly stock: StockKind };

/** Fills a sheet of this stock; undefined when told to stop. */
type Fill = (stock: StockKind) => Promise<FilledSheet | undefined>;

/** The smallest free piece that takes all that is left, or else the largest on which anything can lie. */
async function freeSheet(
  setup: Setup,
  plan: Plan,
  usable: readonly StockKind[],
  left: readonly number[],
  fill: Fill,
): Promise<Filled | "stopped" | undefined> {
  const size = (stock: StockKind): number => stock.area * (plan.lean[stock.index] ?? 1);
  const free = usable.filter((stock) => stock.price === 0).sort((a, b) => size(b) - size(a));
  const enough = free.filter((stock) => stock.area >= areaOf(setup.kinds, left)).reverse();
  const wanted = left.reduce((a, b) => a + b, 0);
  for (const stock of enough) {
    const sheet = await fill(stock);
    if (sheet === undefined) return "stopped";
    if (sheet.laid.length === wanted) return { ...sheet, stock };
  }
  for (const stock of free) {
    const sheet = await fill(stock);
    if (sheet === undefined) return "stopped";
    if (sheet.laid.length > 0) return { ...sheet, stock };
  }
  return undefined;
}

/**
 * The bought sheet with the least price to the end: its own, plus what the plates it leaves would cost at the best
 * rate seen (price per plate area), but no less than one cheapest sheet.
 */
async function boughtSheet(
  setup: Setup,
  plan: Plan,
  usable: readonly StockKind[],
  left: readonly number[],
  fill: Fill,
): Promise<Filled | "stopped" | undefined> {
  const priceOf = (stock: StockKind): number => stock.price * (plan.lean[stock.index] ?? 1);
  const bought = usable.filter((stock) => stock.price > 0).sort((a, b) => priceOf(a) - priceOf(b));
  const cheapest = bought[0] ? priceOf(bought[0]) : 0;
  const leftArea = areaOf(setup.kinds, left);
  const tried: (Filled & { price: number })[] = [];
  let whole = Number.POSITIVE_INFINITY;
  for (const stock of bought) {
    const price = priceOf(stock);
    // A cheaper sheet takes everything already.
    if (price >= whole) break;
    const sheet = await fill(stock);
    if (sheet === undefined) return "stopped";
    if (sheet.laid.length === 0) continue;
    tried.push({ ...sheet, stock, price });
    if (sheet.counts.every((count, kind) => count === left[kind])) whole = price;
  }
  const rate = Math.min(...tried.map((sheet) => sheet.price / sheet.area));
  const total = (sheet: Filled & { price: number }): number => {
    const rest = leftArea - sheet.area;
    return sheet.price + (rest > 1e-9 * leftArea ? Math.max(cheapest, rest * rate) : 0);
  };
  // Between equal totals the better rate: what is left then is less, and decided later.
  return tried.sort((a, b) => total(a) - total(b) || a.price / a.area - b.price / b.area)[0];
}

/** The last few sheets of a run are chosen one by one: what is left may be cheaper on other stock. */
const CHOSEN_SINGLY = 2;

/** How often the layout is cut: as often as plates and stock allow, less the last few; at least once. */
function repeats(sheet: FilledSheet, left: readonly number[], had: number): number {
  let most = had;
  sheet.counts.forEach((count, index) => {
    if (count > 0) most = Math.min(most, Math.floor(left[index] / count));
  });
  return Math.max(1, most - CHOSEN_SINGLY);
}

function pieces(stock: StockKind): number {
  return stock.stock.available === "unlimited" ? Number.POSITIVE_INFINITY : stock.stock.available;
}

export function areaOf(kinds: readonly PlateKind[], counts: readonly number[]): number {
  return counts.reduce((sum, count, index) => sum + count * kinds[index].area, 0);
}
