import type { Plate } from "@keelcut/geometry";
import type { Sheet } from "@keelcut/nesting";
import type { Bridge } from "../../packages/cli/src/bridges/bridge-places.js";
import type { LeadInWish } from "../../packages/cli/src/output/drawing.js";
import {
  type DrawingOptions,
  defaultDxfOptions,
  plateDrawing,
  plateFileName,
  type SizeState,
  sheetDrawing,
  sheetFileName,
  strokeCounts,
  writeDxf,
  writeSvg,
} from "../../packages/cli/src/output/index.js";
import type { Expectations, WrittenFile } from "../../packages/cli/src/prove/index.js";
import { deck, drawn, nestedSheet, plates, plug, ring, stock } from "./dxf-samples.js";

export interface ProvedJob {
  readonly files: readonly WrittenFile[];
  readonly expectations: Expectations;
}

const secondSheet: Sheet = {
  stock: stock.id,
  times: 1,
  placements: [
    { part: "ring", x: 60, y: 60, rotation: 0, mirrored: false },
    { part: "plug", x: 120, y: 60, rotation: 90, mirrored: false },
    { part: "plug", x: 140, y: 60, rotation: 45, mirrored: false },
  ],
};

/** Everything that may be drawn beside or in the cut lines. */
export interface SampleExtras {
  readonly bridges?: ReadonlyMap<string, readonly Bridge[]>;
  /** Length of the gap, mm. */
  readonly gap?: number;
  readonly leadIns?: LeadInWish;
}

/** A job of two layouts and three plates, written in one DXF flavour and SVG. */
export function writeJob(
  size: SizeState,
  flavour: "R12" | "R2000" = "R2000",
  { bridges, gap, leadIns }: SampleExtras = {},
): ProvedJob {
  const of = (id: string): readonly Bridge[] => bridges?.get(id) ?? [];
  const options: DrawingOptions = {
    size,
    marks: true,
    stockOutline: true,
    ...(gap === undefined ? {} : { bridges: { gap, of } }),
    ...(leadIns === undefined ? {} : { leadIns }),
  };
  const material = { material: "PE-HD", thickness: 10 };
  const files: WrittenFile[] = [];
  const write = (folder: string, name: string, drawing: Parameters<typeof writeSvg>[0]): void => {
    files.push({ name: `${folder}/${name}.dxf`, text: writeDxf(drawing, { ...defaultDxfOptions, flavour }) });
    files.push({ name: `${folder}/${name}.svg`, text: writeSvg(drawing) });
  };
  const sheets = [nestedSheet, secondSheet].map((sheet, index) => {
    const name = sheetFileName(material, index + 1, sheet.times, size);
    const drawing = drawn(sheetDrawing({ sheet, number: index + 1, stock, material, plates }, options));
    write("sheets", name, drawing);
    return {
      name,
      stockOutline: stock.outline,
      keepOuts: stock.keepOuts,
      times: sheet.times,
      placements: sheet.placements.map(({ part, ...placement }) => ({ plate: part, ...placement })),
      reference: { stock: true, ...strokeCounts(drawing) },
    };
  });
  const quantities = new Map([
    ["deck", 6],
    ["ring", 7],
    ["plug", 8],
  ]);
  const plateFiles = [deck, ring, plug].map((plate: Plate) => {
    const quantity = quantities.get(plate.id) ?? 0;
    const name = plateFileName(plate, quantity, size);
    const drawing = drawn(plateDrawing(plate, quantity, options));
    write("plates", name, drawing);
    return { name, plate: plate.id, quantity, reference: strokeCounts(drawing) };
  });
  return {
    files,
    expectations: {
      size,
      clearance: 4,
      edgeMargin: 10,
      cutRadius: leadIns?.cutRadius ?? 0.5,
      layers: defaultDxfOptions.layerNames,
      formats: ["dxf", "svg"],
      ...(gap === undefined ? {} : { bridgeGap: gap }),
      plates: [deck, ring, plug].map(({ id, region }) => ({
        id,
        region,
        copies: quantities.get(id) ?? 0,
        bridges: of(id),
      })),
      sheets,
      plateFiles,
    },
  };
}
