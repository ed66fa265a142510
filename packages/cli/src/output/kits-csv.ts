import type { KitComparison, KitRow } from "../cost/index.js";
import { major } from "../cost/money.js";
import { csv } from "./csv.js";

/** `kits.csv`: one row a figure, one column a number of kits; money in major units. */
export function kitsCsv(comparison: KitComparison): string {
  const header = ["of", "figure", "unit", ...comparison.kits.map((kits) => `kits_${kits}`)];
  const rows = (of: string, figures: readonly KitRow[]): (string | number)[][] =>
    figures.map((row) => [
      of,
      row.what,
      row.unit === "money" ? comparison.currency : row.unit,
      ...row.values.map((value) => (row.unit === "money" ? major(value, comparison.exponent) : value)),
    ]);
  return csv([header, ...rows("job", comparison.job), ...rows("kit", comparison.perKit)]);
}

/**
 * `steps.csv`: from each number of kits to the next, what each line does to the job and to one kit. The last column adds up
 * to the change of the cost of a kit.
 */
export function stepsCsv({ steps, currency, exponent }: KitComparison): string {
  const header = [
    "from_kits",
    "to_kits",
    "group",
    "item",
    "unit",
    "quantity_before",
    "quantity_after",
    "amount_before",
    "amount_after",
    "change_of_a_kit",
    "currency",
  ];
  const money = (value: number | undefined): number | undefined =>
    value === undefined ? undefined : major(value, exponent);
  const rows = steps.flatMap(({ from, to, lines }) =>
    lines.map(({ group, item, unit, before, after, perKit }) => [
      from,
      to,
      group,
      item,
      unit,
      before?.quantity,
      after?.quantity,
      money(before?.amount),
      money(after?.amount),
      // Parts of a cent stay, so that many small lines add up.
      Number((perKit / 10 ** exponent).toFixed(exponent + 4)),
      currency,
    ]),
  );
  return csv([header, ...rows]);
}
