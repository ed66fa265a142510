import type { Workbook, Worksheet } from "exceljs";
import { changeText, type KitComparison, type KitRow } from "../../cost/index.js";
import { major } from "../../cost/money.js";
import { header, moneyFormat, putText, setWidths, table, totalStyle } from "./style.js";

/**
 * Numbers of kits side by side and what makes each step. Plain values: layouts and packs are chosen anew for each number,
 * which no formula does.
 */
export function kitsSheet(workbook: Workbook, comparison: KitComparison): void {
  const { kits, currency, steps, exponent } = comparison;
  const sheet = workbook.addWorksheet("Kits", { views: [{ state: "frozen", xSplit: 1, ySplit: 1 }] });
  setWidths(sheet, [34, ...kits.map(() => 16), 30, 46]);
  header(
    sheet,
    1,
    ["the job", ...kits.map((count) => `${count} ${count === 1 ? "kit" : "kits"}`)],
    kits.map((_, index) => index + 2),
  );
  let row = figureRows(sheet, 2, comparison.job, comparison);
  header(
    sheet,
    row,
    [`one kit, ${currency}`, ...kits.map(String)],
    kits.map((_, index) => index + 2),
  );
  row = figureRows(sheet, row + 1, comparison.perKit, comparison);
  const lines = steps.flatMap((step) =>
    step.lines.map((line) => [
      `${step.from} -> ${step.to} kits: ${line.item}`,
      Number((line.perKit / 10 ** exponent).toFixed(exponent + 2)),
      changeText(line),
    ]),
  );
  if (lines.length > 0)
    table(sheet, row + 1, ["what changes one kit", `by, ${currency}`, "from what to what"], lines);
}

function figureRows(sheet: Worksheet, from: number, rows: readonly KitRow[], of: KitComparison): number {
  for (const [index, { what, unit, values }] of rows.entries()) {
    const at = from + index;
    putText(sheet.getCell(at, 1), what, 0);
    for (const [column, value] of values.entries()) {
      const cell = sheet.getCell(at, column + 2);
      cell.value = unit === "money" ? major(value, of.exponent) : value;
      cell.numFmt = formatOf(unit, of.exponent);
    }
    if (what === "total") totalStyle(sheet, at, values.length + 1);
  }
  return from + rows.length;
}

function formatOf(unit: KitRow["unit"], exponent: number): string {
  if (unit === "money") return moneyFormat(exponent);
  if (unit === "share") return "0.0 %";
  return unit === "hours" ? "#,##0.00" : "#,##0";
}
