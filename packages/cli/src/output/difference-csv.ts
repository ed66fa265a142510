import type { EstimateComparison } from "../cost/index.js";
import { major } from "../cost/money.js";
import { csv } from "./csv.js";

/** What differs from one estimate to another at one number of kits. */
export interface Difference extends EstimateComparison {
  readonly kits: number;
}

/**
 * `difference.csv`: for each number of kits the lines that differ from one estimate to the other, the largest change of
 * money first, and the totals of the job and of a kit; money in major units.
 */
export function differenceCsv(differences: readonly Difference[]): string {
  const header = [
    "kits",
    "group",
    "item",
    "unit",
    "quantity_this",
    "quantity_other",
    "amount_this",
    "amount_other",
    "difference",
    "currency",
  ];
  const rows = differences.flatMap(({ kits, lines, total, perKit, currency, exponent }) => {
    const money = (value: number | undefined): number | undefined =>
      value === undefined ? undefined : major(value, exponent);
    const sums = [
      { item: "total", ...total },
      { item: "a kit", ...perKit },
    ];
    return [
      ...lines.map(({ group, item, unit, before, after, difference }) => [
        kits,
        group,
        item,
        unit,
        before?.quantity,
        after?.quantity,
        money(before?.amount),
        money(after?.amount),
        money(difference),
        currency,
      ]),
      ...sums.map(({ item, before, after, difference }) => [
        kits,
        "sum",
        item,
        "",
        undefined,
        undefined,
        money(before),
        money(after),
        money(difference),
        currency,
      ]),
    ];
  });
  return csv([header, ...rows]);
}
