import type { TradeRow } from "./batch-job.js";
import { type Choice, sheetsOf } from "./choice.js";
import { cheapestChoice, granule, type LayoutRule, type Master } from "./master.js";
import type { SheetLayout } from "./pool.js";
import type { StockShape } from "./shapes.js";
import type { Solver } from "./solver.js";

/** Rows of the trade table beside the plan's own. */
const MOST_ROWS = 4;

/** A choice without surplus copies, in one or several ways. */
type Finish = (choice: Choice) => Promise<Choice[]>;

/**
 * The best choice among the layouts: all demand if the stock suffices, then the least cost, then the fewest layouts; and
 * what fewer layouts would cost, unless there is a hurry. With a most number of layouts, the best that keeps it, or the
 * one with the fewest.
 */
export async function tradedOff(
  master: Master,
  early: readonly Choice[],
  solver: Solver | undefined,
  finish: Finish,
  hurried: () => boolean,
): Promise<{ choice: Choice; trade: TradeRow[] }> {
  const found: Choice[] = [...early];
  let few: readonly SheetLayout[] = [];
  const lookAmong = async (among: Master, rule: LayoutRule | undefined): Promise<void> => {
    const answer = solver && (await cheapestChoice(among, solver, rule));
    if (answer !== undefined) found.push(...(await finish(answer.choice)));
  };
  const look = (rule: LayoutRule | undefined): Promise<void> =>
    lookAmong(rule === undefined ? master : { ...master, layouts: few }, rule);
  await look(undefined);
  if (master.job.rests !== undefined) {
    // Layouts with a rest are not in the pool, which keeps full ones: they come of taking off what is too much.
    for (const shape of master.shapes) await lookAmong(ofShape(master, shape), undefined);
    await lookAmong(withLayoutsOf(master, found), undefined);
  }
  const least = bestChoice(found);
  few = shortList(master, found);
  const each = master.job.costPerLayout ?? 0;
  const unit = granule(master.job);
  const small = unit / (4 * Math.max(1, least.cuts.length));
  const rule = each > 0 ? { each, gap: (9 / 10) * unit } : { each: small, gap: small / 2 };
  const enough = (): boolean => hurried() && master.job.maxLayouts === undefined;
  if (least.cuts.length > 1 && !enough()) await look(rule);
  for (const most of layoutCounts(bestChoice(found).cuts.length - 1, master.job.maxLayouts)) {
    if (!enough()) await look({ ...rule, most });
  }
  const complete = found.filter((choice) => unmade(choice) === unmade(bestChoice(found)));
  return { choice: withinLimit(master, found), trade: tradeRows(complete) };
}

function ofShape(master: Master, shape: StockShape): Master {
  return { ...master, layouts: master.layouts.filter((layout) => layout.shape === shape) };
}

function withLayoutsOf(master: Master, found: readonly Choice[]): Master {
  const used = found.flatMap((choice) => choice.cuts.map(({ layout }) => layout));
  return { ...master, layouts: [...new Set([...master.layouts, ...used])] };
}

/** Layouts among which those that count are chosen: more make the count too hard. */
const MOST_COUNTED = 24;

/** The layouts of the plans so far, those nearest to the demand's proportions, and the fullest for their price. */
function shortList({ layouts, areas, demand }: Master, found: readonly Choice[]): SheetLayout[] {
  const rate = ({ counts, shape }: SheetLayout): number =>
    counts.reduce((sum, count, kind) => sum + count * (areas[kind] as number), 0) / shape.price;
  const balance = ({ counts, shape }: SheetLayout): number =>
    Math.min(...demand.flatMap((count, kind) => (count > 0 ? [(counts[kind] as number) / count] : []))) /
    shape.price;
  const used = new Set(found.flatMap((choice) => choice.cuts.map(({ layout }) => layout)));
  const byBalance = layouts.toSorted((a, b) => balance(b) - balance(a)).slice(0, MOST_COUNTED / 4);
  const byRate = layouts.toSorted((a, b) => rate(b) - rate(a));
  const listed = new Set([...layouts.filter((layout) => used.has(layout)), ...byBalance, ...byRate]);
  return [...listed].slice(0, MOST_COUNTED);
}

/** Numbers of layouts to try: up to the most, all of the small ones and some of the larger. */
function layoutCounts(most: number, limit: number | undefined): number[] {
  const from = Math.min(most, limit ?? most);
  const counts = Array.from({ length: Math.max(0, from) }, (_, index) => index + 1);
  if (counts.length <= MOST_ROWS) return counts;
  const step = (counts.length - 1) / (MOST_ROWS - 1);
  const spread = Array.from({ length: MOST_ROWS }, (_, row) => counts[Math.round(row * step)] as number);
  // What is too much on the last sheet makes a layout of its own, so that a limit is met by one less.
  return limit === undefined ? spread : [...new Set([...spread, from - 1])].toSorted((a, b) => a - b);
}

function withinLimit(master: Master, found: readonly Choice[]): Choice {
  const limit = master.job.maxLayouts ?? Number.POSITIVE_INFINITY;
  const least = Math.min(...found.map((choice) => unmade(choice)));
  const whole = found.filter((choice) => unmade(choice) === least);
  const kept = whole.filter((choice) => choice.cuts.length <= limit);
  if (kept.length > 0) return bestChoice(kept);
  const fewest = Math.min(...whole.map((choice) => choice.cuts.length));
  return bestChoice(whole.filter((choice) => choice.cuts.length === fewest));
}

/** All demand if possible, then the least cost less rests, then the least of what costs nothing, then the fewest layouts and sheets. */
export function bestChoice(found: readonly Choice[]): Choice {
  return found.reduce((a, b) => (better(b, a) ? b : a));
}

function better(a: Choice, b: Choice): boolean {
  const difference = unmade(a) - unmade(b);
  if (difference !== 0) return difference < 0;
  const noise = 1e-9 * Math.max(1, b.cost);
  if (Math.abs(netCost(a) - netCost(b)) > noise) return netCost(a) < netCost(b);
  if (Math.abs(a.freeArea - b.freeArea) > 1e-9 * Math.max(1, b.freeArea)) return a.freeArea < b.freeArea;
  if (a.cuts.length !== b.cuts.length) return a.cuts.length < b.cuts.length;
  return sheetsOf(a.cuts) < sheetsOf(b.cuts);
}

function netCost({ cost, restWorth }: Pick<Choice, "cost" | "restWorth">): number {
  return cost - restWorth;
}

/** Copies left unmade. */
function unmade(choice: Choice): number {
  return choice.left.reduce((sum, count) => sum + count, 0);
}

/** One row for each number of layouts at which less cannot be had for as little, fewest layouts first. */
function tradeRows(found: readonly Choice[]): TradeRow[] {
  const rows: TradeRow[] = [];
  const sorted = found.toSorted((a, b) => a.cuts.length - b.cuts.length || (better(a, b) ? -1 : 1));
  for (const choice of sorted) {
    const last = rows.at(-1);
    if (last !== undefined && netCost(choice) >= netCost(last) - 1e-9 * last.cost) continue;
    const { cost, restWorth } = choice;
    rows.push({ layouts: choice.cuts.length, sheets: sheetsOf(choice.cuts), cost, restWorth });
  }
  return rows;
}
