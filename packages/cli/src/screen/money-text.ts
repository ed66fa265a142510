import { COST_GROUPS, type CostEstimate, type CostGroup, moneyText } from "../cost/index.js";

export const groupNames: Readonly<Record<CostGroup, string>> = {
  sheet: "sheets",
  cutting: "cutting",
  handling: "handling",
  setup: "set-up",
  minimum: "up to the minimum charge",
  hardware: "hardware",
  length: "rods and pipes",
  packing: "packing",
  freight: "freight",
  tax: "tax",
};

/** `123.40 EUR` */
export function priceText(money: number, { exponent, currency }: CostEstimate): string {
  return `${moneyText(money, exponent)} ${currency}`;
}

/** `sheets 81.00, cutting 40.10, tax 24.22`: the groups that cost something. */
export function groupsText(estimate: CostEstimate): string {
  return COST_GROUPS.filter((group) => estimate.totals.groups[group] !== 0)
    .map((group) => `${groupNames[group]} ${moneyText(estimate.totals.groups[group], estimate.exponent)}`)
    .join(", ");
}
