import type { Budget } from "../budget.js";
import type { Pace } from "../sheets/fill.js";
import { type LayoutMaker, worthOf } from "./layouts.js";
import { lastingWorths, worthsOf } from "./master.js";
import type { Measure } from "./measure.js";
import { worthiestCounts } from "./pattern-measure.js";
import type { LayoutPool } from "./pool.js";
import { isEndless, type StockShape } from "./shapes.js";
import type { Solver } from "./solver.js";

/** Until which share of the effort layouts of one kit and of several are made, and until which those that prices ask for. */
export interface Shares {
  readonly mixed: number;
  readonly priced: number;
}

/** When nothing comes behind, and when the guided search does. */
export const WHOLE_EFFORT: Shares = { mixed: 0.35, priced: 0.9 };
export const FIRST_EFFORT: Shares = { mixed: 0.15, priced: 0.4 };

/** Numbers of kits laid one sheet after another. */
const KIT_COUNTS = [1, 2, 3, 4, 6, 8, 12, 16] as const;
const LARGE_KIT_COUNTS = [32, 128] as const;

/** Layouts tried on each shape of stock for one set of prices, and rounds without a gain after which it ends. */
const PROPOSED_TRIES = 3;
const WORTHY_TRIES = 3;
const PATIENCE = 12;

/** Nodes of a knapsack that only proposes. */
const NODES = 100;

/** How much fuller the next proposal is after one that found room whole, and emptier after one that did not. */
const FULLER = 1.03;
const EMPTIER = 0.985;

/**
 * Fills the pool: sheets of one and of several kits laid in order, sheets of whole kits, then by column generation
 * (Gilmore and Gomory, Operations Research 9, 1961, and 11, 1963): the linear master tells what each plate is worth, a
 * knapsack over the measures proposes which plates together are worth more than a sheet, and the packer tries to lay
 * them; beside that it lays dear plates first. The share of the sheet's area that proposals may fill is learned from what
 * found room. It ends with the effort, or when no gain turns up for a while. The packer is no exact answer, so such an
 * end proves nothing; the bound does not rest on it.
 */
export async function generated(
  pool: LayoutPool,
  maker: LayoutMaker,
  shapes: readonly StockShape[],
  mix: readonly number[],
  measures: readonly [Measure, ...Measure[]],
  budget: Budget,
  shares: Shares,
  solver: Solver | undefined,
): Promise<void> {
  const mixed: Pace = { stop: () => budget.spent(shares.mixed), hasty: () => false };
  const priced: Pace = { stop: () => budget.spent(shares.priced), hasty: () => false };
  if (mix.every((count) => count === 0)) return;
  await maker.balanced(pool, mixed);
  for (const kits of LARGE_KIT_COUNTS) await maker.sequence(pool, kits, 0, mixed);
  await maker.wholeKits(pool, mixed);
  for (let plan = 0; plan < maker.planCount && !mixed.stop(); plan++) {
    const before = pool.layouts;
    for (const kits of KIT_COUNTS) await maker.sequence(pool, kits, plan, mixed);
    if (plan >= maker.planCount / 3 && pool.layouts === before) break;
  }
  if (solver === undefined) return;
  const endless = shapes.filter(isEndless);
  const isMixed = endless.length > 0 && endless.length < shapes.length;
  const fullness = shapes.map(() => 1);
  for (let idle = 0; idle < PATIENCE && !priced.stop(); idle++) {
    const usual = await worthsOf(pool.layouts, mix, solver);
    const lasting = isMixed ? await lastingWorths(pool.layouts, mix, endless, solver) : usual;
    if (usual === undefined || lasting === undefined) return;
    for (const shape of shapes) {
      const worths = endless.includes(shape) ? lasting : usual;
      const before = pool.layouts;
      const share = fullness[shape.index] as number;
      const fewer = lessArea(measures, share);
      const proposal = await worthiestCounts(
        fewer,
        shape.index,
        worths.plates,
        maker.limits(shape),
        solver,
        NODES,
      );
      if (proposal !== undefined && worthOf(proposal.counts, worths.plates) > shape.price) {
        const { counts } = proposal;
        const room = await maker.proposed(pool, shape, counts, worths.plates, PROPOSED_TRIES, priced);
        fullness[shape.index] = room >= 1 - 1e-9 ? Math.min(1, share * FULLER) : share * EMPTIER;
      } else fullness[shape.index] = Math.min(1, share * FULLER);
      await maker.worthy(pool, shape, worths.plates, shape.price, WORTHY_TRIES, priced);
      const gain = pool.layouts.filter(
        (layout) =>
          layout.shape === shape &&
          !before.includes(layout) &&
          worthOf(layout.counts, worths.plates) > shape.price * (1 + 1e-9),
      );
      if (gain.length > 0) idle = -1;
      if (priced.stop()) return;
    }
  }
}

/** The measures with only a share of the area. */
function lessArea([area, ...others]: readonly [Measure, ...Measure[]], share: number): Measure[] {
  return [{ ...area, capacities: area.capacities.map((capacity) => capacity * share) }, ...others];
}
