import { type Random, randomIndex } from "../random.js";
import { type Layout, type LayoutSheet, type Task, wholeTask } from "./construct.js";
import type { Setup, StockKind } from "./prepare.js";
import { fullness } from "./rank.js";

/** Part of a layout that is to be laid anew, and what stays as it is. */
export interface Repack {
  readonly kept: readonly LayoutSheet[];
  readonly task: Task;
}

/**
 * Takes the emptiest bought sheet and one or two others apart. Laying their plates anew costs the same however many
 * sheets there are, so large jobs improve as fast as small ones.
 */
export function opened(setup: Setup, layout: Layout, random: Random): Repack {
  const single = layout.sheets.flatMap((sheet) => (sheet.stock.price > 0 ? [sheet] : []));
  const emptiest = single.reduce((a, b) => (fullness(b) < fullness(a) ? b : a), single[0]);
  const chosen = new Map<LayoutSheet, number>([[emptiest, 1]]);
  const more = 1 + randomIndex(random, 2);
  for (let k = 0; k < more; k++) {
    const sheet = layout.sheets[randomIndex(random, layout.sheets.length)];
    chosen.set(sheet, Math.min(sheet.times, (chosen.get(sheet) ?? 0) + 1));
  }
  const left = [...layout.left];
  const kept: LayoutSheet[] = [];
  const had = new Map<StockKind, number>(wholeTask(setup).had);
  for (const sheet of layout.sheets) {
    const taken = chosen.get(sheet) ?? 0;
    sheet.counts.forEach((count, kind) => {
      left[kind] = left[kind] + taken * count;
    });
    if (sheet.times === taken) continue;
    kept.push({ ...sheet, times: sheet.times - taken });
    had.set(sheet.stock, (had.get(sheet.stock) ?? 0) - (sheet.times - taken));
  }
  return { kept, task: { left, had } };
}
