import type { Budget } from "../budget.js";
import type { GuidedMaker } from "./guided.js";
import { STEPS_A_STEP, targetsOf } from "./guided-generation.js";
import type { LayoutPool } from "./pool.js";
import type { StockShape } from "./shapes.js";

/** Most sheets on which kits are laid together, and most plates on them. */
const MOST_SHEETS = 4;
const MOST_PLATES = 100;

/** Placement searches for kits that the bottom-left layout finds no room for, about a third of a second. */
const STEPS = 6000;

/**
 * Layouts for whole kits on one, two, three and four sheets together, of the shape that is cheapest for its area: as many
 * kits as are found room for. The layouts that shadow prices ask for are good on average, over hundreds of kits; for ten
 * kits it matters that the last ones still fit the last sheet. What is laid depends on the kit alone, not on how many are
 * wanted, so that plans for more kits still cost no less.
 *
 * Measured on the PE-HD plates of ten kits of examples/teal-110: three full sheets, where there were four without.
 */
export async function addWholeKits(
  pool: LayoutPool,
  maker: GuidedMaker,
  shapes: readonly StockShape[],
  mix: readonly number[],
  { budget, seed }: { readonly budget: Budget; readonly seed: number },
): Promise<void> {
  const plates = mix.reduce((sum, count) => sum + count, 0);
  const [shape] = targetsOf(shapes, maker);
  if (plates === 0 || shape === undefined) return;
  let kits = 0;
  for (let sheets = 1; sheets <= MOST_SHEETS; sheets++) {
    // One more than found room on the sheets before, and one more after another.
    while (plates * (kits + 1) <= MOST_PLATES && !budget.spent()) {
      const { filled, steps } = maker.together(shape, kits + 1, sheets, { steps: STEPS, seed });
      budget.steps += Math.ceil(steps / STEPS_A_STEP) + plates * (kits + 1) - 1;
      await budget.step();
      if (filled === undefined) break;
      for (const each of filled) pool.add(shape, each);
      kits++;
    }
  }
}
