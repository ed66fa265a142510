import type { CostGroup, CostLine, SharedRate } from "./cost-estimate.js";
import { amount } from "./money.js";

/** Shown in place of a rate and an amount nobody gave. */
export const NO_PRICE = "no price";

/** A line whose amount follows from its figures. */
export function pricedLine(
  exponent: number,
  group: CostGroup,
  figures: { readonly item: string; readonly quantity: number; readonly unit: string; readonly rate: number },
  from: string,
  sharedRate?: SharedRate,
): CostLine {
  const line = { group, ...figures, amount: amount(exponent, figures.quantity, figures.rate), from };
  return sharedRate === undefined ? line : { ...line, sharedRate };
}

/** A line that lacks a price: shown as such, never counted as free. */
export function unpricedLine(
  group: CostGroup,
  figures: { readonly item: string; readonly quantity: number; readonly unit: string },
  from: string,
): CostLine {
  return { group, ...figures, from };
}
