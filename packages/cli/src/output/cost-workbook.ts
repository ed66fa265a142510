import type { Workbook } from "exceljs";
import { COST_GROUPS, type CostEstimate, type CostGroup, type SharedRate } from "../cost/cost-estimate.js";
import { major } from "../cost/money.js";
import { detailTables } from "./workbook/detail-tables.js";
import { withFixedDates } from "./workbook/fixed-zip.js";
import {
  groupSum,
  type LineBlock,
  lineSheet,
  type RateCells,
  rounded,
  unpricedCount,
} from "./workbook/line-sheet.js";
import {
  header,
  inputStyle,
  moneyFormat,
  printable,
  setWidths,
  table,
  totalStyle,
} from "./workbook/style.js";

/** One date for every workbook: no time of writing gets into the file. */
const FIXED_DATE = new Date(Date.UTC(2000, 0, 1));

/** Sheets of lines, in order, and the groups each holds. */
const LINE_SHEETS: readonly (readonly [name: string, groups: readonly CostGroup[]])[] = [
  ["Material", ["sheet"]],
  ["Cutting", ["cutting", "handling", "setup", "minimum"]],
  ["Hardware", ["hardware"]],
  ["Lengths", ["length"]],
];

const GROUP_TITLES: Readonly<Record<CostGroup, string>> = {
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

const RATE_TITLES: Readonly<Record<SharedRate | "minimum", string>> = {
  perHour: "machine, an hour",
  perMetre: "cutting, a metre",
  perPierce: "start of a cut, each",
  labourPerHour: "packing work, an hour",
  packagingPerKit: "packaging, a kit",
  taxShare: "tax, share of 1",
  minimum: "minimum charge of the shop, a job",
};

/**
 * `cost.xlsx`: the estimate with live formulas (and their results, for programs that do not calculate). A rate changed on the
 * sheet Assumptions, or a line's own rate, moves every total; the layouts and quantities are those of the estimate.
 *
 * The same estimate gives the same bytes.
 */
export async function costWorkbook(estimate: CostEstimate): Promise<Uint8Array> {
  const { default: exceljs } = await import("exceljs");
  const workbook = new exceljs.Workbook();
  workbook.creator = "keelcut";
  workbook.lastModifiedBy = "keelcut";
  workbook.created = FIXED_DATE;
  workbook.modified = FIXED_DATE;
  const summary = workbook.addWorksheet("Summary", { views: [{ state: "frozen", ySplit: 1 }] });
  const rates = rateCells(estimate);
  const blocks: LineBlock[] = [];
  for (const [name, groups] of LINE_SHEETS) {
    const { sheet, block, nextRow } = lineSheet(workbook, name, groups, estimate, rates);
    blocks.push(block);
    detailTables(sheet, name, nextRow, estimate);
  }
  const kit = lineSheet(workbook, "Per kit", ["packing", "freight"], estimate, rates);
  blocks.push(kit.block);
  const rows = summarySheet(summary, blocks, estimate, rates);
  perKitTable(kit.sheet, kit.nextRow, rows, estimate);
  assumptionsSheet(workbook, estimate);
  const bytes = await workbook.xlsx.writeBuffer();
  return withFixedDates(new Uint8Array(bytes));
}

/** Row of each group and of the totals on the sheet Summary. */
interface SummaryRows {
  readonly groups: ReadonlyMap<CostGroup, number>;
  readonly total: number;
}

function summarySheet(
  sheet: ReturnType<Workbook["addWorksheet"]>,
  blocks: readonly LineBlock[],
  estimate: CostEstimate,
  rates: RateCells,
): SummaryRows {
  const { exponent, currency, totals, kits } = estimate;
  setWidths(sheet, [34, 18, 12, 70]);
  header(sheet, 1, [
    printable(`${estimate.frame}, ${kits} ${kits === 1 ? "kit" : "kits"}`),
    `amount, ${currency}`,
    "share",
    "from",
  ]);
  const groups = new Map<CostGroup, number>(COST_GROUPS.map((group, index) => [group, index + 2]));
  const at = (group: CostGroup): string => `B${groups.get(group) ?? 0}`;
  const total = COST_GROUPS.length + 2;
  const put = (row: number, title: string, formula: string, result: number, from: string): void => {
    sheet.getCell(row, 1).value = title;
    const cell = sheet.getCell(row, 2);
    cell.value = { formula, result };
    cell.numFmt = moneyFormat(exponent);
    const share = sheet.getCell(row, 3);
    const part = totals.total === 0 ? 0 : result / major(totals.total, exponent);
    share.value = { formula: `IF($B$${total}=0,0,B${row}/$B$${total})`, result: part };
    share.numFmt = "0.0 %";
    sheet.getCell(row, 4).value = from;
  };
  for (const [group, row] of groups) {
    const amount = major(totals.groups[group], exponent);
    const taxed = `(${estimate.terms.taxedGroups.map(at).join("+")})*${rates.taxShare ?? 0}`;
    const formula = group === "tax" ? rounded(taxed, estimate) : groupSum(group, blocks, estimate);
    const from =
      group === "tax"
        ? `on ${estimate.terms.taxedGroups.join(", ")}`
        : `sheet ${blocks.find((block) => block.groups.includes(group))?.sheet ?? ""}`;
    put(row, GROUP_TITLES[group], formula, amount, from);
  }
  put(total, "Total", rounded(`SUM(B2:B${total - 1})`, estimate), major(totals.total, exponent), "");
  totalStyle(sheet, total, 4);
  const perKit = rounded(`B${total}/${kits}`, estimate);
  put(total + 1, "Per kit", perKit, major(estimate.perKit.total, exponent), `total / ${kits}`);
  sheet.getCell(total + 2, 1).value = "Lines without a price";
  sheet.getCell(total + 2, 2).value = { formula: unpricedCount(blocks), result: totals.unpriced };
  sheet.getCell(total + 2, 4).value =
    totals.unpriced === 0 ? "" : "the total lacks them: type a price over “no price”";
  const findings = estimate.findings.map((finding) => [finding.severity, finding.place, "", finding.message]);
  if (findings.length > 0) table(sheet, total + 5, ["finding", "place", "", "what"], findings);
  return { groups, total };
}

function perKitTable(
  sheet: ReturnType<Workbook["addWorksheet"]>,
  row: number,
  rows: SummaryRows,
  estimate: CostEstimate,
): void {
  const { exponent, kits, perKit } = estimate;
  header(sheet, row, ["", "cost of one kit", "job", "", "", `one of ${kits}, ${estimate.currency}`, ""]);
  const put = (at: number, title: string, source: number, job: number, one: number): void => {
    sheet.getCell(at, 2).value = title;
    const whole = sheet.getCell(at, 3);
    whole.value = { formula: `Summary!B${source}`, result: major(job, exponent) };
    whole.numFmt = moneyFormat(exponent);
    const cell = sheet.getCell(at, 6);
    cell.value = { formula: rounded(`C${at}/${kits}`, estimate), result: major(one, exponent) };
    cell.numFmt = moneyFormat(exponent);
  };
  let at = row + 1;
  for (const [group, source] of rows.groups) {
    put(at++, GROUP_TITLES[group], source, estimate.totals.groups[group], perKit.groups[group]);
  }
  put(at, "Cost of one kit", rows.total, estimate.totals.total, perKit.total);
  totalStyle(sheet, at, 7);
  if (perKit.sellingPrice !== undefined && perKit.marginPercent !== undefined) {
    sheet.getCell(at + 1, 2).value = "Selling price: cost / (1 - margin)";
    const margin = sheet.getCell(at + 1, 3);
    margin.value = perKit.marginPercent / 100;
    margin.numFmt = "0.0 %";
    inputStyle(margin);
    const price = sheet.getCell(at + 1, 6);
    price.value = {
      formula: rounded(`C${at}/(${kits}*(1-C${at + 1}))`, estimate),
      result: major(perKit.sellingPrice, exponent),
    };
    price.numFmt = moneyFormat(exponent);
    at++;
  }
  const { weights } = estimate;
  const grams = (["plates", "hardware", "lengths", "total"] as const).map((part) => [
    "",
    part,
    Math.round(weights[part]),
    "g",
  ]);
  const next = table(sheet, at + 3, ["", "weight of one kit, without packaging", "", ""], grams);
  for (const [index, missing] of weights.missing.entries()) {
    sheet.getCell(next + index, 2).value = printable(`not weighed: ${missing}`);
  }
}

/** Where the shared rates stand on the sheet Assumptions, before that sheet is written. */
function rateCells(estimate: CostEstimate): RateCells {
  return Object.fromEntries(
    sharedRates(estimate).map(([name], index) => [name, `Assumptions!$B$${index + 2}`]),
  );
}

function sharedRates(estimate: CostEstimate): [SharedRate | "minimum", number][] {
  const { rates, minimum } = estimate.terms;
  const names = Object.keys(RATE_TITLES) as (SharedRate | "minimum")[];
  return names.flatMap((name) => {
    const rate = name === "minimum" ? minimum : rates[name];
    return rate === undefined ? [] : [[name, rate] as [SharedRate | "minimum", number]];
  });
}

function assumptionsSheet(workbook: Workbook, estimate: CostEstimate): void {
  const sheet = workbook.addWorksheet("Assumptions", { views: [{ state: "frozen", ySplit: 1 }] });
  setWidths(sheet, [38, 60, 50, 12]);
  const rates = sharedRates(estimate);
  header(sheet, 1, ["rate (may be changed)", `value, ${estimate.currency}`, "used by", ""]);
  for (const [index, [name, rate]] of rates.entries()) {
    sheet.getCell(index + 2, 1).value = RATE_TITLES[name];
    const cell = sheet.getCell(index + 2, 2);
    cell.value = rate;
    cell.alignment = { horizontal: "left" };
    inputStyle(cell);
    sheet.getCell(index + 2, 3).value = name === "taxShare" ? "sheet Summary" : "every line with this rate";
  }
  table(
    sheet,
    rates.length + 4,
    ["assumption", "value", "source", "stated"],
    estimate.assumptions.map(({ what, value, source, defaulted }) => [
      what,
      value,
      source,
      defaulted ? "default" : "stated",
    ]),
  );
}
