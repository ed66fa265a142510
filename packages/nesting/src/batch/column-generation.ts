import type { Budget } from "../budget.js";
import type { Pace } from "../sheets/fill.js";
import { type LayoutMaker, worthOf } from "./layouts.js";
import { worthsOf } from "./master.js";
import type { LayoutPool } from "./pool.js";
import type { StockShape } from "./shapes.js";
import type { Solver } from "./solver.js";

/** Share of the effort for layouts of one kit and of several; the rest goes to those that prices ask for. */
const MIXED_SHARE = 0.4;
const PRICED_SHARE = 0.9;

/** Numbers of kits laid one sheet after another. */
const KIT_COUNTS = [1, 2, 3, 4, 6, 8, 12, 16] as const;

/** Layouts tried on each shape of stock for one set of prices, and rounds without a gain after which it ends. */
const TRIES = 5;
const PATIENCE = 12;

/**
 * Fills the pool: sheets of one and of several kits laid in order, sheets of whole kits, then by column generation
 * (Gilmore and Gomory, Operations Research 9, 1961, and 11, 1963): the linear master tells what each plate is worth, the
 * packer looks for a sheet whose plates are worth more than it costs, until the effort is spent or none turns up for a
 * while. The packer is no exact answer to that question, so an end without gain proves nothing; the bound does not rest
 * on it.
 */
export async function generated(
  pool: LayoutPool,
  maker: LayoutMaker,
  shapes: readonly StockShape[],
  mix: readonly number[],
  budget: Budget,
  solver: Solver | undefined,
): Promise<void> {
  const mixed: Pace = { stop: () => budget.spent(MIXED_SHARE), hasty: () => false };
  const priced: Pace = { stop: () => budget.spent(PRICED_SHARE), hasty: () => false };
  if (mix.every((count) => count === 0)) return;
  await maker.wholeKits(pool, mixed);
  for (let plan = 0; plan < maker.planCount && !mixed.stop(); plan++) {
    const before = pool.layouts;
    for (const kits of KIT_COUNTS) await maker.sequence(pool, kits, plan, mixed);
    if (plan >= maker.planCount / 3 && pool.layouts === before) break;
  }
  if (solver === undefined) return;
  for (let idle = 0; idle < PATIENCE && !priced.stop(); idle++) {
    const worths = await worthsOf(pool.layouts, mix, solver);
    if (worths === undefined) return;
    for (const shape of shapes) {
      const found = await maker.worthy(pool, shape, worths.plates, shape.price, TRIES, priced);
      if (found && worthOf(found.counts, worths.plates) > shape.price * (1 + 1e-9)) idle = -1;
      if (priced.stop()) return;
    }
  }
}
