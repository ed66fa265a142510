import type { Workbook, Worksheet } from "exceljs";
import type { CostEstimate, CostGroup, CostLine, SharedRate } from "../../cost/cost-estimate.js";
import { NO_PRICE } from "../../cost/line.js";
import { major } from "../../cost/money.js";
import { fitHeight, header, inputStyle, moneyFormat, putText, setWidths, totalStyle } from "./style.js";

/** Where the lines of some groups stand, so that other sheets can add them up. */
export interface LineBlock {
  readonly sheet: string;
  readonly groups: readonly CostGroup[];
  readonly firstRow: number;
  readonly lastRow: number;
}

/** Cells of the rates that several lines share, as absolute references. */
export type RateCells = Readonly<Partial<Record<SharedRate | "minimum", string>>>;

const COLUMNS = ["group", "item", "quantity", "unit", "rate", "amount", "from"];
/** One more than there are columns, for the orders below the hardware. */
const WIDTHS = [11, 46, 13, 14, 12, 14, 60, 30];

/** A sheet of cost lines, quantity x rate = amount as live formulas, with the sum below. */
export function lineSheet(
  workbook: Workbook,
  name: string,
  groups: readonly CostGroup[],
  estimate: CostEstimate,
  rates: RateCells,
): { sheet: Worksheet; block: LineBlock; nextRow: number } {
  const sheet = workbook.addWorksheet(name, { views: [{ state: "frozen", ySplit: 1 }] });
  setWidths(sheet, WIDTHS);
  header(sheet, 1, [...COLUMNS.slice(0, 5), `amount, ${estimate.currency}`, "from"], [3, 5, 6]);
  const lines = estimate.lines.filter((line) => groups.includes(line.group) && line.group !== "minimum");
  let row = 2;
  for (const line of lines) lineRow(sheet, row++, line, estimate, rates);
  if (groups.includes("minimum") && rates.minimum !== undefined)
    minimumRow(sheet, row++, lines.length, estimate, rates.minimum);
  const block = { sheet: name, groups, firstRow: 2, lastRow: Math.max(2, row - 1) };
  const sum = groups.reduce((total, group) => total + estimate.totals.groups[group], 0);
  const cell = sheet.getCell(row, 6);
  putText(sheet.getCell(row, 2), "Sum", 1);
  cell.value = {
    formula: rounded(`SUM(F${block.firstRow}:F${block.lastRow})`, estimate),
    result: major(sum, estimate.exponent),
  };
  cell.numFmt = moneyFormat(estimate.exponent);
  totalStyle(sheet, row, COLUMNS.length);
  return { sheet, block, nextRow: row + 2 };
}

/** The sum of one group over all blocks, as a formula without the leading sign. */
export function groupSum(group: CostGroup, blocks: readonly LineBlock[], estimate: CostEstimate): string {
  const terms = blocks
    .filter((block) => block.groups.includes(group))
    .map(({ sheet, firstRow, lastRow }) => {
      const column = (letter: string): string => `'${sheet}'!$${letter}$${firstRow}:$${letter}$${lastRow}`;
      return `SUMIF(${column("A")},"${group}",${column("F")})`;
    });
  return rounded(terms.length === 0 ? "0" : terms.join("+"), estimate);
}

/** How many lines lack a price, over all blocks. */
export function unpricedCount(blocks: readonly LineBlock[]): string {
  return blocks
    .map(({ sheet, firstRow, lastRow }) => `COUNTIF('${sheet}'!$F$${firstRow}:$F$${lastRow},"${NO_PRICE}")`)
    .join("+");
}

export function rounded(formula: string, estimate: CostEstimate): string {
  return `ROUND(${formula},${estimate.exponent})`;
}

function lineRow(
  sheet: Worksheet,
  row: number,
  line: CostLine,
  estimate: CostEstimate,
  rates: RateCells,
): void {
  const shared = line.sharedRate === undefined ? undefined : rates[line.sharedRate];
  sheet.getCell(row, 1).value = line.group;
  putText(sheet.getCell(row, 2), line.item, 1);
  sheet.getCell(row, 3).value = line.quantity;
  putText(sheet.getCell(row, 4), line.unit, 3);
  const rate = sheet.getCell(row, 5);
  if (shared !== undefined && line.rate !== undefined) rate.value = { formula: shared, result: line.rate };
  else {
    rate.value = line.rate ?? NO_PRICE;
    inputStyle(rate);
  }
  rate.numFmt = "#,##0.00####";
  const amount = sheet.getCell(row, 6);
  // Typing a price over "no price" brings the line into the total.
  amount.value = {
    formula: `IF(ISNUMBER(E${row}),${rounded(`C${row}*E${row}`, estimate)},"${NO_PRICE}")`,
    result: line.amount === undefined ? NO_PRICE : major(line.amount, estimate.exponent),
  };
  amount.numFmt = moneyFormat(estimate.exponent);
  amount.alignment = { horizontal: "right" };
  rate.alignment = { horizontal: "right" };
  const from = sheet.getCell(row, 7);
  putText(from, line.from, 6);
  from.alignment = { ...from.alignment, wrapText: true };
  fitHeight(sheet, row, [line.group, "", 0, line.unit, 0, 0, line.from]);
}

/** What is missing to the minimum charge stays live: it shrinks when the work above grows. */
function minimumRow(
  sheet: Worksheet,
  row: number,
  lines: number,
  estimate: CostEstimate,
  minimum: string,
): void {
  const work = lines === 0 ? "0" : `SUM(F2:F${row - 1})`;
  sheet.getCell(row, 1).value = "minimum";
  putText(sheet.getCell(row, 2), "up to the minimum charge", 1);
  sheet.getCell(row, 3).value = 1;
  putText(sheet.getCell(row, 4), "job", 3);
  const amount = sheet.getCell(row, 6);
  const result = major(estimate.totals.groups.minimum, estimate.exponent);
  // A job without any cutting is not charged at all.
  const missing = lines === 0 ? "0" : `MAX(0,${rounded(minimum, estimate)}-${work})`;
  amount.value = { formula: rounded(missing, estimate), result };
  amount.numFmt = moneyFormat(estimate.exponent);
  putText(sheet.getCell(row, 7), "the minimum charge less the work above", 6);
}
