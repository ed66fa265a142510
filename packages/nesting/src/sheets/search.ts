import type { Budget } from "../budget.js";
import { seededRandom } from "../random.js";
import { construct, type Layout, type Plan } from "./construct.js";
import { firstPlans, varied } from "./plans.js";
import type { Setup } from "./prepare.js";
import { better, type Rank, rank } from "./rank.js";
import { squeezed } from "./squeeze.js";

/** Share of the effort that goes into layouts; the rest goes into the last sheet. */
const LAYOUT_SHARE = 0.8;

/**
 * Lays the plates on sheets: builds layouts from the first plans, then from changes of the best one, as long as the
 * budget lasts, then packs the last sheet tighter. The first layout is always completed, in haste once the budget is
 * spent.
 *
 * Same setup, seed and steps give the same layout.
 */
export async function searchSheets(
  setup: Setup,
  budget: Budget,
  onImproved: (layout: Layout) => void,
): Promise<Layout> {
  const random = seededRandom(setup.job.seed);
  const plans = firstPlans(setup);
  let best = await firstLayout(setup, plans[0] as Plan, budget);
  onImproved(best.layout);
  const spent = (): boolean => budget.spent(LAYOUT_SHARE);
  const pace = { stop: spent, hasty: () => false };
  for (let round = 1; best.layout.sheets.length > 0 && !spent(); round++) {
    const plan = plans[round] ?? varied(setup, best.plan, random);
    const layout = await construct(setup, plan, budget, pace);
    if (layout === undefined) break;
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
  const layout = await construct(setup, plan, budget, { stop: () => false, hasty: () => budget.spent() });
  if (layout === undefined) throw new Error("the first layout was stopped although nothing may stop it");
  return { plan, layout, rank: rank(setup, layout) };
}
