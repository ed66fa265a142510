import type { Budget } from "../budget.js";
import type { Random } from "../random.js";
import type { Layout, LayoutSheet, Plan } from "./construct.js";
import { fillInOrder } from "./fill.js";
import { firstPlans, varied } from "./plans.js";
import type { Setup } from "./prepare.js";

/**
 * The layout with its last bought sheet packed again, to leave the largest rest in one piece: the rectangle beyond the
 * last plate in the packing direction. Every other sheet is left alone.
 */
export async function squeezed(
  setup: Setup,
  layout: Layout,
  plan: Plan,
  budget: Budget,
  random: Random,
): Promise<Layout> {
  const index = layout.sheets.findLastIndex((sheet) => sheet.stock.price > 0 && sheet.times === 1);
  const sheet = layout.sheets[index];
  if (sheet === undefined) return layout;
  const plans = firstPlans(setup).map((first) => ({ ...first, order: kept(first.order, sheet) }));
  let best: { sheet: LayoutSheet; plan: Plan } = {
    sheet,
    plan: { ...plan, order: sheet.laid.map((laid) => laid.kind) },
  };
  const pace = { stop: () => budget.spent(), hasty: () => false };
  for (let round = 0; !budget.spent(); round++) {
    const next = plans[round] ?? varied(setup, best.plan, random);
    const model = next.across ? sheet.stock.across : sheet.stock.along;
    const filled = await fillInOrder(model, setup.kinds, next.order, sheet.counts, next.manner, budget, pace);
    if (filled === undefined) break;
    if (filled.laid.length < sheet.laid.length) continue;
    const found = { sheet: { ...sheet, ...filled }, plan: next };
    if (rest(found.sheet) >= rest(best.sheet)) best = found;
  }
  if (rest(best.sheet) <= rest(sheet)) return layout;
  return { ...layout, sheets: layout.sheets.map((other) => (other === sheet ? best.sheet : other)) };
}

/** Area of the rectangle beyond the last plate, mm2. */
function rest(sheet: LayoutSheet): number {
  const { minX, maxX, minY, maxY } = sheet.model.limits;
  return Math.max(0, maxX - minX - sheet.used) * (maxY - minY);
}

/** The order restricted to what lies on the sheet. */
function kept(order: readonly number[], sheet: LayoutSheet): number[] {
  const left = [...sheet.counts];
  return order.filter((kind) => {
    const count = left[kind] ?? 0;
    left[kind] = count - 1;
    return count > 0;
  });
}
