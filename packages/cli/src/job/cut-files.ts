import type { Finding, Plate } from "@keelcut/geometry";
import type { ShopProfile } from "../input/shop-profile.js";
import type { OutputFile } from "../output/folder.js";
import {
  type DrawingOptions,
  type DrawingResult,
  plateDrawing,
  plateFileName,
  type SizeState,
  sheetDrawing,
  sheetFileName,
  writeDxf,
  writeSvg,
} from "../output/index.js";
import type { LaidOut } from "./laid-out.js";

/** Files for the shop, with what drawing them found. */
export interface CutFiles {
  readonly files: readonly OutputFile[];
  readonly findings: readonly Finding[];
}

export interface SheetFiles extends CutFiles {
  /** For each group, the DXF of each of its sheets in order. */
  readonly names: readonly (readonly string[])[];
}

/** Whether files hold the plates' own size, or contours moved by half a kerf. */
export function sizeState(cutting: { compensation: "shop" | "file"; kerf: number }): SizeState {
  return cutting.compensation === "shop"
    ? { state: "nominal" }
    : { state: "compensated", kerf: cutting.kerf };
}

/** One DXF and one SVG for each distinct sheet: `sheets/pe-hd-10mm-01-x3.dxf`. */
export function sheetFiles(groups: readonly LaidOut[], size: SizeState, shop: ShopProfile): SheetFiles {
  const files: OutputFile[] = [];
  const findings: Finding[] = [];
  const names = groups.map(({ material, plates, job, result }) => {
    const byId = new Map(plates.map((plate) => [plate.id, plate]));
    return result.sheets.map((sheet, index) => {
      const stock = job.stock.find((each) => each.id === sheet.stock);
      if (stock === undefined)
        throw new RangeError(`sheet ${index + 1} lies on unknown stock ${sheet.stock}`);
      const number = index + 1;
      const drawn = sheetDrawing(
        { sheet, number, stock, material, plates: byId },
        drawingOptions(size, shop),
      );
      const name = `sheets/${sheetFileName(material, number, sheet.times, size)}`;
      findings.push(...drawn.findings);
      files.push(...drawingFiles(name, drawn, shop));
      return `${name}.dxf`;
    });
  });
  return { files, findings, names };
}

/** One DXF and one SVG for each plate at 1:1: `plates/deck-pe-hd-10mm-x2.dxf`. Printed templates are never compensated. */
export function plateFiles(
  plates: readonly Plate[],
  demand: (plate: Plate) => number,
  size: SizeState,
  shop: ShopProfile,
): CutFiles {
  const files: OutputFile[] = [];
  const findings: Finding[] = [];
  for (const plate of plates) {
    const state: SizeState = plate.made === "printed" ? { state: "nominal" } : size;
    const drawn = plateDrawing(plate, demand(plate), drawingOptions(state, shop));
    findings.push(...drawn.findings);
    files.push(...drawingFiles(`plates/${plateFileName(plate, demand(plate), size)}`, drawn, shop));
  }
  return { files, findings };
}

function drawingOptions(size: SizeState, shop: ShopProfile): DrawingOptions {
  return { size, marks: shop.files.marks, stockOutline: shop.files.stockOutline };
}

function drawingFiles(name: string, drawn: DrawingResult, shop: ShopProfile): OutputFile[] {
  if (!drawn.ok) return [];
  const { layers, layerNames, dxf } = shop.files;
  return [
    { path: `${name}.dxf`, content: writeDxf(drawn.drawing, { layers, layerNames, flavour: dxf }) },
    { path: `${name}.svg`, content: writeSvg(drawn.drawing, { layers, layerNames }) },
  ];
}
