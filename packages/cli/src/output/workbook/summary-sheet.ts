import type { Worksheet } from "exceljs";
import { COST_GROUPS, type CostEstimate, type CostGroup } from "../../cost/cost-estimate.js";
import { type Money, major } from "../../cost/money.js";
import { groupSum, type LineBlock, type RateCells, rounded, unpricedCount } from "./line-sheet.js";
import { header, moneyFormat, printable, putText, setWidths, table, totalStyle } from "./style.js";

export const GROUP_TITLES: Readonly<Record<CostGroup, string>> = {
  sheet: "Sheets, less rests kept",
  cutting: "Cutting",
  handling: "Loading, freeing plates",
  setup: "Set-up and fixed charge",
  minimum: "Up to the minimum charge",
  hardware: "Hardware",
  length: "Rods and pipes",
  packing: "Packing",
  freight: "Freight",
  tax: "Tax",
};

const FIRST_ROW = 2;
const TOTAL_ROW = FIRST_ROW + COST_GROUPS.length;

/** Cell of a group's sum, or of the total, on the sheet Summary. */
export function summaryCell(what: CostGroup | "total"): string {
  return `B${what === "total" ? TOTAL_ROW : FIRST_ROW + COST_GROUPS.indexOf(what)}`;
}

/** Where the money goes: each group's sum over the other sheets, tax, total, one kit; and below, what was found. */
export function summarySheet(
  sheet: Worksheet,
  blocks: readonly LineBlock[],
  estimate: CostEstimate,
  rates: RateCells,
): void {
  const { exponent, currency, totals, kits, terms } = estimate;
  setWidths(sheet, [34, 24, 12, 84]);
  const title = `${estimate.frame}, ${kits} ${kits === 1 ? "kit" : "kits"}`;
  header(sheet, 1, [printable(title), `amount, ${currency}`, "share", "from"], [2, 3]);
  const put = (row: number, what: string, formula: string, result: Money, from: string): void => {
    putText(sheet.getCell(row, 1), what, 0);
    const cell = sheet.getCell(row, 2);
    cell.value = { formula, result: major(result, exponent) };
    cell.numFmt = moneyFormat(exponent);
    putText(sheet.getCell(row, 4), from, 3);
  };
  for (const [index, group] of COST_GROUPS.entries()) {
    const taxed = `(${terms.taxedGroups.map(summaryCell).join("+")})*${rates.taxShare ?? 0}`;
    const where = blocks.find((block) => block.groups.includes(group))?.sheet ?? "";
    const [formula, from] =
      group === "tax"
        ? [rounded(taxed, estimate), `on ${terms.taxedGroups.join(", ")}`]
        : [groupSum(group, blocks, estimate), `sheet ${where}`];
    put(FIRST_ROW + index, GROUP_TITLES[group], formula, totals.groups[group], from);
  }
  const all = rounded(`SUM(B${FIRST_ROW}:B${TOTAL_ROW - 1})`, estimate);
  put(TOTAL_ROW, "Total", all, totals.total, "");
  for (let row = FIRST_ROW; row <= TOTAL_ROW; row++) shareOfTotal(sheet, row, estimate);
  totalStyle(sheet, TOTAL_ROW, 4);
  const one = rounded(`${summaryCell("total")}/${kits}`, estimate);
  put(TOTAL_ROW + 1, "Per kit", one, estimate.perKit.total, `total / ${kits}`);
  putText(sheet.getCell(TOTAL_ROW + 2, 1), "Lines without a price", 0);
  sheet.getCell(TOTAL_ROW + 2, 2).value = { formula: unpricedCount(blocks), result: totals.unpriced };
  const warning = totals.unpriced === 0 ? "" : "the total lacks them: type a price over “no price”";
  putText(sheet.getCell(TOTAL_ROW + 2, 4), warning, 3);
  const findings = estimate.findings.map((finding) => [finding.severity, finding.place, "", finding.message]);
  if (findings.length > 0) table(sheet, TOTAL_ROW + 5, ["finding", "place", "", "what"], findings);
}

function shareOfTotal(sheet: Worksheet, row: number, estimate: CostEstimate): void {
  const { totals } = estimate;
  const group = COST_GROUPS[row - FIRST_ROW];
  const amount = group === undefined ? totals.total : totals.groups[group];
  const total = `$${summaryCell("total").replace("B", "B$")}`;
  const share = sheet.getCell(row, 3);
  const result = totals.total === 0 ? 0 : amount / totals.total;
  share.value = { formula: `IF(${total}=0,0,B${row}/${total})`, result };
  share.numFmt = "0.0 %";
}
