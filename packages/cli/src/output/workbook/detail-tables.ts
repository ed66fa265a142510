import type { Worksheet } from "exceljs";
import type { CostEstimate, LengthUse } from "../../cost/cost-estimate.js";
import { perKitTables } from "./per-kit-tables.js";
import { putText, table } from "./style.js";

/** The table below the lines of a sheet that shows where its quantities come from. */
export function detailTables(sheet: Worksheet, name: string, row: number, estimate: CostEstimate): void {
  if (name === "Material") materialTable(sheet, row, estimate);
  else if (name === "Cutting") cuttingTable(sheet, row, estimate);
  else if (name === "Hardware") hardwareTable(sheet, row, estimate);
  else if (name === "Lengths") cutList(sheet, row, estimate);
  else if (name === "Per kit") perKitTables(sheet, row, estimate);
}

function materialTable(sheet: Worksheet, row: number, estimate: CostEstimate): void {
  const rows = estimate.material.map((use) => [
    "",
    `${use.material} ${use.thickness} mm`,
    use.sheetCount,
    "sheets",
    use.leastSheets,
    tidy(use.yield * 100, 1),
    use.sheets.map((entry) => `${entry.used} of ${entry.stock} (${entry.atHand} at hand)`).join("; "),
  ]);
  table(sheet, row, ["", "material", "cut", "", "at least", "yield, %", "stock"], rows);
}

function cuttingTable(sheet: Worksheet, row: number, estimate: CostEstimate): void {
  const rows = estimate.cutting.map((use) => {
    const { minutes, metres } = use;
    const time =
      minutes === undefined
        ? "no feed"
        : `cut ${tidy(minutes.cut, 2)} + enter ${tidy(minutes.enter, 2)} + travel ${tidy(minutes.travel, 2)}${minutes.change === undefined ? "" : ` + change tools ${tidy(minutes.change, 2)}`} min`;
    return [
      "",
      `${use.material} ${use.thickness} mm, layout ${use.layout}, ${use.plates} plates on ${use.stock}`,
      use.times,
      "sheets",
      minutes === undefined ? "" : tidy(minutes.machine, 2),
      tidy(metres.drawn, 2),
      `${time}; ${use.starts} starts, cutter path ${tidy(metres.cut, 2)} m, travel ${tidy(metres.travel, 2)} m`,
    ];
  });
  table(sheet, row, ["", "one sheet of", "times", "", "machine, min", "drawn, m", "time of one sheet"], rows);
}

function hardwareTable(sheet: Worksheet, row: number, estimate: CostEstimate): void {
  const rows = estimate.hardware.map((use) => [
    use.kind,
    use.item,
    use.total,
    use.spares === 0 ? "" : `${use.spares} spare`,
    use.perKit,
    use.bought,
    use.uses.map((entry) => `${entry.count} x ${entry.place}: ${entry.why}`).join("; "),
    use.orders?.join("; ") ?? "",
  ]);
  table(
    sheet,
    row,
    ["kind", "needed", "job", "spares", "a kit", "bought", "what for (one kit)", "order"],
    rows,
  );
}

function cutList(sheet: Worksheet, row: number, estimate: CostEstimate): void {
  const rows = estimate.lengths.flatMap((use) =>
    (use.plan?.bars ?? []).map((bar) => [
      use.kind,
      use.item,
      bar.times,
      "bars",
      use.plan?.use[bar.stock]?.length ?? "",
      tidy(bar.rest, 1),
      bar.cuts.map((cut) => `${cut.count} x ${tidy(cut.length, 2)}`).join(", "),
    ]),
  );
  const next = table(
    sheet,
    row,
    ["kind", "cut list", "times", "", "length, mm", "rest, mm", "pieces, mm"],
    rows,
  );
  for (const [index, use] of estimate.lengths.entries())
    putText(sheet.getCell(next + 1 + index, 2), proofText(use), 1);
}

function proofText(use: LengthUse): string {
  if (use.plan === undefined) return `${use.item}: no cut list`;
  const { bound, boundIs, proof } = use.plan;
  const limit = boundIs === "bars" ? `${bound} bars` : `${tidy(bound, 2)} of money`;
  if (proof === "none") return `${use.item}: no plan takes less than ${limit}; a better one is not ruled out`;
  return `${use.item}: proven, no plan takes less than ${limit}`;
}

function tidy(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}
