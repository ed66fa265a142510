import type { Workbook, Worksheet } from "exceljs";
import { changeText, type KitComparison, type KitRow } from "../../cost/index.js";
import { major } from "../../cost/money.js";
import { header, moneyFormat, putText, setWidths, totalStyle } from "./style.js";

/**
 * Numbers of kits side by side and what makes each step. Plain values: layouts and packs are chosen anew for each number,
 * which no formula does.
 */
export function kitsSheet(workbook: Workbook, comparison: KitComparison): void {
  const { kits, currency } = comparison;
  const sheet = workbook.addWorksheet("Kits", { views: [{ state: "frozen", xSplit: 1, ySplit: 1 }] });
  setWidths(sheet, [46, ...kits.map(() => 16)]);
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
  stepRows(sheet, row + 1, comparison);
}

/** Lines named for one step; `steps.csv` has them all. */
const MOST_LINES = 8;

function stepRows(sheet: Worksheet, from: number, { steps, currency, exponent }: KitComparison): void {
  let row = from;
  for (const step of steps) {
    header(sheet, row++, [`${step.from} to ${step.to} kits`, `one kit, ${currency}`, "what changes"], [2]);
    const rest = step.lines.slice(MOST_LINES);
    const named = step.lines.slice(0, MOST_LINES).map((line) => ({ ...line, text: changeText(line) }));
    const other = {
      item: `${rest.length} other lines`,
      perKit: rest.reduce((sum, line) => sum + line.perKit, 0),
      text: "",
    };
    for (const { item, perKit, text } of rest.length > 0 ? [...named, other] : named) {
      putText(sheet.getCell(row, 1), item, 0);
      const cell = sheet.getCell(row, 2);
      cell.value = Number((perKit / 10 ** exponent).toFixed(exponent + 2));
      cell.numFmt = moneyFormat(exponent);
      // Not wrapped: it runs on over the empty cells beside it.
      putText(sheet.getCell(row++, 3), text, 2);
    }
    putText(sheet.getCell(row, 1), "change of one kit", 0);
    const sum = sheet.getCell(row, 2);
    sum.value = major(step.perKit, exponent);
    sum.numFmt = moneyFormat(exponent);
    totalStyle(sheet, row, 3);
    row += 2;
  }
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
