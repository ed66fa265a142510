import type { CostEstimate, CostGroup } from "../cost/cost-estimate.js";
import type { KitComparison } from "../cost/index.js";
import { assumptionsSheet, rateCells } from "./workbook/assumptions-sheet.js";
import { detailTables } from "./workbook/detail-tables.js";
import { withFixedDates } from "./workbook/fixed-zip.js";
import { kitsSheet } from "./workbook/kits-sheet.js";
import { type LineBlock, lineSheet } from "./workbook/line-sheet.js";
import { summarySheet } from "./workbook/summary-sheet.js";

/** One date for every workbook: no time of writing gets into the file. */
const FIXED_DATE = new Date(Date.UTC(2000, 0, 1));

/** Sheets of lines, in order, and the groups each holds. */
const LINE_SHEETS: readonly (readonly [name: string, groups: readonly CostGroup[]])[] = [
  ["Material", ["sheet"]],
  ["Cutting", ["cutting", "handling", "setup", "minimum"]],
  ["Hardware", ["hardware"]],
  ["Lengths", ["length"]],
  ["Per kit", ["packing", "freight"]],
];

/**
 * `cost.xlsx`: the estimate with live formulas (and their results, for programs that do not calculate). A rate changed on the
 * sheet Assumptions, or a line's own rate, moves every total; the layouts and quantities stay those of the estimate.
 *
 * With a comparison of several numbers of kits a sheet of it is added. The same estimate gives the same bytes.
 */
export async function costWorkbook(estimate: CostEstimate, kits?: KitComparison): Promise<Uint8Array> {
  const { default: exceljs } = await import("exceljs");
  const workbook = new exceljs.Workbook();
  workbook.creator = "keelcut";
  workbook.lastModifiedBy = "keelcut";
  workbook.created = FIXED_DATE;
  workbook.modified = FIXED_DATE;
  // The first sheet adds up the others, so it is made first and filled last.
  const summary = workbook.addWorksheet("Summary", { views: [{ state: "frozen", ySplit: 1 }] });
  const rates = rateCells(estimate);
  const blocks: LineBlock[] = [];
  for (const [name, groups] of LINE_SHEETS) {
    const { sheet, block, nextRow } = lineSheet(workbook, name, groups, estimate, rates);
    blocks.push(block);
    detailTables(sheet, name, nextRow, estimate);
  }
  summarySheet(summary, blocks, estimate, rates);
  if (kits !== undefined) kitsSheet(workbook, kits);
  assumptionsSheet(workbook, estimate);
  return withFixedDates(new Uint8Array(await workbook.xlsx.writeBuffer()));
}
