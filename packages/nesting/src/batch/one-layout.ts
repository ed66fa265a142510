import { type Choice, choiceOf } from "./choice.js";
import type { LayoutMaker } from "./layouts.js";
import type { Master } from "./master.js";
import { lightened } from "./trim.js";

/** Layouts looked at, those of the cheapest plans first. */
const MOST_LAYOUTS = 6;

/** The most sheets that are tried for one layout, in the fewest there can be, and how many numbers of them at most. */
const MOST_SHEETS = 2;
const MOST_TRIED = 1000;

/**
 * Plans of a single layout: each sheet a little emptier than it could be, so that a whole number of them makes just the
 * demand. The pool holds full layouts only, of which the last sheet makes too much, and taking that off makes a second
 * layout.
 */
export async function oneLayoutChoices(
  master: Master,
  surplusPercent: number,
  maker: LayoutMaker,
): Promise<Choice[]> {
  const { layouts, demand } = master;
  const found = layouts.flatMap((layout) => {
    const plan = evenSheets(layout.counts, demand, surplusPercent);
    return plan === undefined ? [] : [{ layout, ...plan }];
  });
  const price = ({ layout, times }: (typeof found)[number]): number => layout.shape.price * times;
  const best = found.toSorted((a, b) => price(a) - price(b)).slice(0, MOST_LAYOUTS);
  const choices: Choice[] = [];
  for (const { layout, times, counts } of best) {
    const same = counts.every((count, kind) => count === layout.counts[kind]);
    const own = same ? layout : await lightened(layout, counts, maker);
    const choice = choiceOf(master, [{ layout: own, times }]);
    if (choice !== undefined) choices.push(choice);
  }
  return choices;
}

/** The fewest sheets of one layout, with no more on each than it holds, that make the demand and no more than is allowed. */
export function evenSheets(
  holds: readonly number[],
  demand: readonly number[],
  surplusPercent: number,
): { readonly times: number; readonly counts: readonly number[] } | undefined {
  const least = demand.reduce(
    (most, wanted, kind) =>
      wanted === 0 ? most : Math.max(most, Math.ceil(wanted / (holds[kind] as number))),
    1,
  );
  if (!Number.isFinite(least)) return undefined;
  const most = Math.min(MOST_SHEETS * least, least + MOST_TRIED);
  for (let times = least; times <= most; times++) {
    const counts = demand.map((wanted) => Math.ceil(wanted / times));
    const fits = demand.every(
      (wanted, kind) =>
        times * (counts[kind] as number) - wanted <= Math.floor((wanted * surplusPercent) / 100 + 1e-9),
    );
    if (fits) return { times, counts };
  }
  return undefined;
}
