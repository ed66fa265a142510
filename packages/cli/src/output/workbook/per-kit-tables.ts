import type { Worksheet } from "exceljs";
import { COST_GROUPS, type CostEstimate } from "../../cost/cost-estimate.js";
import { major } from "../../cost/money.js";
import { rounded } from "./line-sheet.js";
import { header, inputStyle, moneyFormat, putText, table, totalStyle } from "./style.js";
import { GROUP_TITLES, summaryCell } from "./summary-sheet.js";

/** What one kit costs, sells for and weighs. */
export function perKitTables(sheet: Worksheet, row: number, estimate: CostEstimate): void {
  const { exponent, kits, perKit, totals } = estimate;
  header(sheet, row, ["", "cost of one kit", "job", "", "", `one of ${kits}`, ""], [3, 6]);
  const put = (at: number, title: string, formula: string, result: number, column: number): void => {
    putText(sheet.getCell(at, 2), title, 1);
    const cell = sheet.getCell(at, column);
    cell.value = { formula, result };
    cell.numFmt = moneyFormat(exponent);
  };
  let at = row + 1;
  for (const what of [...COST_GROUPS, "total"] as const) {
    const [title, job, one] =
      what === "total"
        ? ["Cost of one kit", totals.total, perKit.total]
        : [GROUP_TITLES[what], totals.groups[what], perKit.groups[what]];
    put(at, title, `Summary!${summaryCell(what)}`, major(job, exponent), 3);
    put(at, title, rounded(`C${at}/${kits}`, estimate), major(one, exponent), 6);
    at++;
  }
  totalStyle(sheet, at - 1, 7);
  if (perKit.sellingPrice !== undefined && perKit.marginPercent !== undefined) {
    const margin = sheet.getCell(at, 3);
    margin.value = perKit.marginPercent / 100;
    margin.numFmt = "0.0 %";
    inputStyle(margin);
    const price = rounded(`C${at - 1}/(${kits}*(1-C${at}))`, estimate);
    put(at, "Selling price: cost / (1 - margin)", price, major(perKit.sellingPrice, exponent), 6);
    at++;
  }
  weightTable(sheet, at + 1, estimate);
}

function weightTable(sheet: Worksheet, row: number, { weights }: CostEstimate): void {
  const parts = ["plates", "hardware", "lengths", "total"] as const;
  const whole = weights.missing.length === 0 ? "total" : "total of what was weighed";
  const grams = parts.map((part) => ["", part === "total" ? whole : part, Math.round(weights[part]), "g"]);
  const next = table(sheet, row, ["", "weight of one kit, without packaging", "", ""], grams);
  for (const [index, { what, why }] of weights.missing.entries()) {
    putText(sheet.getCell(next + index, 2), `not weighed: ${what}: ${why}`, 1);
  }
}
