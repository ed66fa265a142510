import type { Budget } from "../budget.js";
import { seededRandom } from "../random.js";
import { construct, type Layout, type Plan, wholeTask } from "./construct.js";
import { drawn, firstPlans, varied } from "./plans.js";
import type { Setup } from "./prepare.js";
import { better, type Rank, rank } from "./rank.js";
import { opened } from "./repack.js";
import { squeezed } from "./squeeze.js";

/** Shares of the effort: first plans end at the first, layouts at the second, the last sheet takes the rest. */
const PLANS_SHARE = 0.4;
const LAYOUT_SHARE = 0.8;

/** How often a plan for everything is drawn afresh instead of changed from the best. */
const DRAWN_SHARE = 0.3;

/** With at least this many sheets, some are taken apart and laid anew instead of all. */
const SHEETS_TO_OPEN = 3;

/**
 * Lays the plates on sheets: builds layouts from the first plans, then changes the best one as long as the budget
 * lasts, then packs the last sheet tighter. The first layout is always completed, in haste once the budget is spent.
 *
 * Same setup, seed and steps give the same layout.
 */
export async function searchSheets(
  setup: Setup,
  budget: Budget,
  onImproved: (layout: Layout) => void,
): Promise<Layout> {
  const random = seededRandom(setup.job.seed);
  const [firstPlan, ...plans] = firstPlans(setup) as [Plan, ...Plan[]];
  let best = await firstLayout(setup, firstPlan, budget);
  onImproved(best.layout);
  const spent = (): boolean => budget.spent(LAYOUT_SHARE);
  const pace = { stop: spent, hasty: () => false };
  const whole = { kept: [], task: wholeTask(setup) };
  while (best.layout.sheets.length > 0 && !spent()) {
    const planned = budget.spent(PLANS_SHARE) ? undefined : plans.shift();
    const some = !planned && sheetCount(best.layout) >= SHEETS_TO_OPEN;
    const { kept, task } = some ? opened(setup, best.layout, random) : whole;
    const plan =
      planned ??
      (some || random() < DRAWN_SHARE
        ? drawn(setup, task.left, best.plan.lean, random)
        : varied(setup, best.plan, random));
    const rest = await construct(setup, task, plan, budget, pace);
    if (rest === undefined) break;
    const layout = { sheets: [...kept, ...rest.sheets], left: rest.left };
    const found = { plan, layout, rank: rank(setup, layout) };
    if (better(best.rank, found.rank)) continue;
    const improved = better(found.rank, best.rank);
    best = found;
    if (improved) onImproved(layout);
  }
  const final = await squeezed(setup, best.layout, best.plan, budget, random);
  if (final !== best.layout) onImproved(final);
  return final;
}

interface Found {
  readonly plan: Plan;
  readonly layout: Layout;
  readonly rank: Rank;
}

async function firstLayout(setup: Setup, plan: Plan, budget: Budget): Promise<Found> {
  const pace = { stop: () => false, hasty: () => budget.spent() };
  const layout = await construct(setup, wholeTask(setup), plan, budget, pace);
  if (layout === undefined) throw new Error("the first layout was stopped although nothing may stop it");
  return { plan, layout, rank: rank(setup, layout) };
}

function sheetCount(layout: Layout): number {
  return layout.sheets.reduce((sum, sheet) => sum + (sheet.stock.price > 0 ? sheet.times : 0), 0);
}
