import type { Finding, Plate } from "@keelcut/geometry";
import type { Sheet, Stock } from "@keelcut/nesting";
import type { ShopProfile } from "../input/shop-profile.js";
import type { OutputFile } from "../output/folder.js";
import {
  type Drawing,
  type DrawingResult,
  plateDrawing,
  plateFileName,
  type SizeState,
  sheetDrawing,
  sheetFileName,
  writeDxf,
  writeSvg,
} from "../output/index.js";
import { type CutStyle, drawingOptions } from "./cut-style.js";
import type { LaidOut } from "./laid-out.js";

/** A drawing and what it shows, to be proved against the files. */
export interface DrawnSheet {
  readonly drawing: Drawing;
  /** Of its files, without folder and ending. */
  readonly name: string;
  readonly sheet: Sheet;
  readonly stock: Stock;
}

export interface DrawnPlate {
  readonly drawing: Drawing;
  readonly name: string;
  readonly plate: Plate;
  readonly quantity: number;
}

/** Files for the shop, with what drawing them found. */
export interface CutFiles<Drawn> {
  readonly drawn: readonly Drawn[];
  readonly files: readonly OutputFile[];
  readonly findings: readonly Finding[];
}

export interface SheetFiles extends CutFiles<DrawnSheet> {
  /** For each group, the DXF of each of its sheets in order. */
  readonly names: readonly (readonly string[])[];
}

/** One DXF and one SVG for each distinct sheet: `sheets/pe-hd-10mm-01-x3.dxf`. */
export function sheetFiles(groups: readonly LaidOut[], style: CutStyle): SheetFiles {
  const { size, shop } = style;
  const files: OutputFile[] = [];
  const findings: Finding[] = [...style.bridges.findings];
  const drawn: DrawnSheet[] = [];
  const names = groups.map(({ material, plates, job, result }, group) => {
    const byId = new Map(plates.map((plate) => [plate.id, plate]));
    return result.sheets.map((sheet, index) => {
      const stock = job.stock.find((each) => each.id === sheet.stock);
      if (stock === undefined)
        throw new RangeError(`sheet ${index + 1} lies on unknown stock ${sheet.stock}`);
      const number = index + 1;
      const name = sheetFileName(material, number, sheet.times, size);
      const input = { sheet, number, stock, material, plates: byId };
      const drawing = sheetDrawing(input, drawingOptions(style, size, style.sheetLabels(group, index)));
      findings.push(...drawing.findings);
      if (drawing.ok) drawn.push({ drawing: drawing.drawing, name, sheet, stock });
      files.push(...drawingFiles(`sheets/${name}`, drawing, shop));
      return `sheets/${name}.dxf`;
    });
  });
  return { drawn, files, findings, names };
}

/**
 * One DXF and one SVG for each plate at 1:1: `plates/deck-pe-hd-10mm-x2.dxf`. Printed templates are never compensated.
 */
export function plateFiles(
  plates: readonly Plate[],
  demand: (plate: Plate) => number,
  style: CutStyle,
): CutFiles<DrawnPlate> {
  const { size, shop } = style;
  const files: OutputFile[] = [];
  const findings: Finding[] = [];
  const drawn: DrawnPlate[] = [];
  for (const plate of plates) {
    const state: SizeState = plate.made === "printed" ? { state: "nominal" } : size;
    const quantity = demand(plate);
    const name = plateFileName(plate, quantity, size);
    const result = plateDrawing(plate, quantity, drawingOptions(style, state, style.labels));
    findings.push(...result.findings);
    if (result.ok) drawn.push({ drawing: result.drawing, name, plate, quantity });
    files.push(...drawingFiles(`plates/${name}`, result, shop));
  }
  return { drawn, files, findings };
}

function drawingFiles(name: string, result: DrawingResult, shop: ShopProfile): OutputFile[] {
  if (!result.ok) return [];
  const { layers, layerNames, layerColours, dxf } = shop.files;
  const told = { layers, layerNames, layerColours };
  return [
    { path: `${name}.dxf`, content: writeDxf(result.drawing, { ...told, flavour: dxf }) },
    { path: `${name}.svg`, content: writeSvg(result.drawing, told) },
  ];
}
