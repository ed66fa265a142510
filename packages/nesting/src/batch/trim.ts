import type { FilledSheet } from "../sheets/fill.js";
import { madeOf } from "./choice.js";
import type { LayoutMaker } from "./layouts.js";
import type { Master } from "./master.js";
import type { Cut, SheetLayout } from "./pool.js";

/**
 * Where copies come off: in one place, which leaves one large rest, or evenly from every cut of a layout as far as it
 * goes, which makes fewer distinct layouts.
 */
export type TrimStyle = "together" | "evenly";

/** Ways tried to lay what stays on a trimmed sheet together, so that the rest is in one piece. */
const TRIES = 4;

/**
 * Takes away the copies beyond the demand and the surplus allowed. They come off as few sheets as possible, because each
 * becomes a layout of its own; what stays on it is laid together to leave one large rest.
 */
export async function trimmed(
  cuts: readonly Cut[],
  { demand, areas }: Pick<Master, "demand" | "areas">,
  surplusPercent: number,
  maker: LayoutMaker,
  style: TrimStyle,
): Promise<Cut[]> {
  const excess = demand.map((wanted, kind) => {
    const allowed = Math.floor((wanted * surplusPercent) / 100 + 1e-9);
    return Math.max(0, madeOf(cuts, kind) - wanted - allowed);
  });
  const result = style === "evenly" ? await evenly(cuts, excess, maker) : [...cuts];
  while (excess.some((count) => count > 0)) {
    const index = mostRelieved(result, excess, areas);
    const { layout, times } = result[index] as Cut;
    const kept = layout.counts.map((count, kind) => count - Math.min(count, excess[kind] as number));
    layout.counts.forEach((count, kind) => {
      excess[kind] = (excess[kind] as number) - (count - (kept[kind] as number));
    });
    if (times > 1) result[index] = { layout, times: times - 1 };
    else result.splice(index, 1);
    if (kept.every((count) => count === 0)) continue;
    const same = result.findIndex((cut) => equal(cut.layout, layout, kept));
    const twin = result[same];
    if (twin !== undefined) result[same] = { ...twin, times: twin.times + 1 };
    else result.push({ layout: await lightened(layout, kept, maker), times: 1 });
  }
  return result;
}

/** Takes from all cuts of a layout alike what can come off so, and off the excess. */
async function evenly(cuts: readonly Cut[], excess: number[], maker: LayoutMaker): Promise<Cut[]> {
  const result: Cut[] = [];
  for (const { layout, times } of cuts.toSorted((a, b) => b.times - a.times)) {
    const kept = layout.counts.map((count, kind) => {
      const off = Math.min(count, Math.floor((excess[kind] as number) / times));
      excess[kind] = (excess[kind] as number) - times * off;
      return count - off;
    });
    if (kept.every((count) => count === 0)) continue;
    const same = kept.every((count, kind) => count === layout.counts[kind]);
    result.push({ layout: same ? layout : await lightened(layout, kept, maker), times });
  }
  return result;
}

/** The sheet from which the largest area can come off at once. */
function mostRelieved(cuts: readonly Cut[], excess: readonly number[], areas: readonly number[]): number {
  let best = { index: -1, relief: 0 };
  cuts.forEach(({ layout }, index) => {
    const relief = layout.counts.reduce(
      (sum, count, kind) => sum + Math.min(count, excess[kind] as number) * (areas[kind] as number),
      0,
    );
    if (relief > best.relief) best = { index, relief };
  });
  if (best.index < 0) throw new Error("there are more copies than the layouts make");
  return best.index;
}

function equal(other: SheetLayout, { shape }: SheetLayout, counts: readonly number[]): boolean {
  return other.shape === shape && other.counts.every((count, kind) => count === counts[kind]);
}

/** A layout with fewer copies, laid together where that is found in a few tries. */
export async function lightened(
  layout: SheetLayout,
  counts: readonly number[],
  maker: LayoutMaker,
): Promise<SheetLayout> {
  const { shape } = layout;
  const dropped = { ...withoutLast(layout.filled, counts), area: maker.netArea(counts) };
  const filled = (await maker.tightest(shape, counts, TRIES)) ?? dropped;
  return { shape, counts, filled };
}

/** The sheet with only so many copies: those laid first stay. */
function withoutLast(filled: FilledSheet, counts: readonly number[]): FilledSheet {
  const left = [...counts];
  const laid = filled.laid.filter(({ kind }) => {
    left[kind] = (left[kind] as number) - 1;
    return (left[kind] as number) >= 0;
  });
  return { ...filled, laid, counts };
}
