import type { CostEstimate } from "../cost/cost-estimate.js";
import { NO_PRICE } from "../cost/line.js";
import { major } from "../cost/money.js";
import { csv } from "./csv.js";

const HEADER = ["group", "item", "quantity", "unit", "rate", "amount", "currency", "from"];

/**
 * `cost.csv`: one row a line of the estimate and nothing else, so that the amounts add up to the total. Amounts in major units;
 * a line without a price says so in both columns.
 */
export function costCsv(estimate: CostEstimate): string {
  const rows = estimate.lines.map((line) => [
    line.group,
    line.item,
    line.quantity,
    line.unit,
    line.rate ?? NO_PRICE,
    line.amount === undefined ? NO_PRICE : major(line.amount, estimate.exponent),
    estimate.currency,
    line.from,
  ]);
  return csv([HEADER, ...rows]);
}
