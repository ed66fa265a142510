import type { Workbook } from "exceljs";
import type { CostEstimate, SharedRate } from "../../cost/cost-estimate.js";
import type { RateCells } from "./line-sheet.js";
import { header, inputStyle, putText, setWidths, table } from "./style.js";

type RateName = SharedRate | "minimum";

const RATE_TITLES: Readonly<Record<RateName, string>> = {
  perHour: "machine, an hour",
  perMetre: "cutting, a metre",
  perPierce: "start of a cut, each",
  labourPerHour: "packing work, an hour",
  packagingPerKit: "packaging, a kit",
  taxShare: "tax, share of 1",
  minimum: "minimum charge of the shop, a job",
};

const FIRST_ROW = 2;

/** Where the shared rates stand on the sheet Assumptions. */
export function rateCells(estimate: CostEstimate): RateCells {
  const names = sharedRates(estimate).map(([name]) => name);
  return Object.fromEntries(names.map((name, index) => [name, `Assumptions!$B$${FIRST_ROW + index}`]));
}

/** The rates the other sheets take from here, and below, everything else the figures stand on. */
export function assumptionsSheet(workbook: Workbook, estimate: CostEstimate): void {
  const sheet = workbook.addWorksheet("Assumptions", { views: [{ state: "frozen", ySplit: 1 }] });
  setWidths(sheet, [38, 60, 50, 12]);
  const rates = sharedRates(estimate);
  header(sheet, 1, ["rate (may be changed)", `value, ${estimate.currency}`, "used by", ""]);
  for (const [index, [name, rate]] of rates.entries()) {
    const row = FIRST_ROW + index;
    putText(sheet.getCell(row, 1), RATE_TITLES[name], 0);
    const cell = sheet.getCell(row, 2);
    cell.value = rate;
    cell.alignment = { horizontal: "left", indent: 1 };
    inputStyle(cell);
    putText(sheet.getCell(row, 3), usedBy(name), 2);
  }
  const rows = estimate.assumptions.map(({ what, value, source, defaulted }) => [
    what,
    value,
    source,
    defaulted ? "default" : "stated",
  ]);
  table(sheet, FIRST_ROW + rates.length + 2, ["assumption", "value", "source", "stated"], rows);
}

function usedBy(name: RateName): string {
  if (name === "taxShare") return "sheet Summary";
  return name === "minimum" ? "sheet Cutting" : "lines with this rate";
}

function sharedRates(estimate: CostEstimate): [RateName, number][] {
  const { rates, minimum } = estimate.terms;
  const names = Object.keys(RATE_TITLES) as RateName[];
  return names.flatMap((name) => {
    const rate = name === "minimum" ? minimum : rates[name];
    return rate === undefined ? [] : [[name, rate] as [RateName, number]];
  });
}
