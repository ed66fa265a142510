import type { Plate } from "@keelcut/geometry";
import type { OutputFile } from "../output/folder.js";
import { type StrokeCounts, strokeCounts } from "../output/index.js";
import { type Certificate, type Expectations, prove } from "../prove/index.js";
import type { CutFiles, DrawnPlate, DrawnSheet } from "./cut-files.js";
import type { CutStyle } from "./cut-style.js";

export interface ToProve {
  readonly sheets: CutFiles<DrawnSheet>;
  /** Absent when only sheets were drawn. */
  readonly plateFiles?: CutFiles<DrawnPlate>;
  readonly plates: readonly Plate[];
  readonly demand: (plate: Plate) => number;
  readonly style: CutStyle;
}

/** Reads the drawings of a job back, as a stranger would, and compares them with what they must show. */
export function proved(job: ToProve): Certificate {
  const files = [...job.sheets.files, ...(job.plateFiles?.files ?? [])];
  return prove(files.map(writtenFile), expectationsOf(job));
}

function writtenFile({ path, content }: OutputFile): { name: string; text: string } {
  return { name: path, text: typeof content === "string" ? content : new TextDecoder().decode(content) };
}

function expectationsOf({ sheets, plateFiles, plates, demand, style }: ToProve): Expectations {
  const { size, shop, bridges } = style;
  const { layerNames, layers } = shop.files;
  return {
    size: size.state === "nominal" ? { state: "nominal" } : size,
    ...(bridges.options === undefined ? {} : { bridgeGap: bridges.options.gap }),
    clearance: shop.cutting.kerf + shop.cutting.safetyGap,
    edgeMargin: shop.cutting.edgeMargin,
    cutRadius: shop.cutting.kerf / 2,
    layers: layers === "single" ? { ...layerNames, opening: layerNames.outline } : layerNames,
    formats: ["dxf", "svg"],
    plates: plates.map((plate) => ({
      id: plate.id,
      region: plate.region,
      copies: demand(plate),
      printed: plate.made === "printed",
      bridges: bridges.byPlate.get(plate.id) ?? [],
    })),
    sheets: sheets.drawn.map(({ drawing, name, sheet, stock }) => ({
      name,
      stockOutline: stock.outline,
      keepOuts: stock.keepOuts,
      times: sheet.times,
      placements: sheet.placements.map(({ part, ...placement }) => ({ ...placement, plate: part })),
      reference: { stock: shop.files.stockOutline, ...strokeCounts(drawing) },
    })),
    plateFiles: (plateFiles?.drawn ?? []).map(({ drawing, name, plate, quantity }) => ({
      name,
      plate: plate.id,
      quantity,
      reference: strokeCounts(drawing),
    })),
  };
}

/** One drawing as the job record lists it, to be proved again later. */
export interface DrawnRecord extends StrokeCounts {
  /** With its folder, without its ending. */
  readonly name: string;
  /** Set for a plate drawn alone. */
  readonly plate?: string;
  readonly quantity?: number;
}

export function drawnRecords(
  sheets: CutFiles<DrawnSheet>,
  plateFiles?: CutFiles<DrawnPlate>,
): readonly DrawnRecord[] {
  return [
    ...sheets.drawn.map(({ drawing, name }) => ({ name: `sheets/${name}`, ...strokeCounts(drawing) })),
    ...(plateFiles?.drawn ?? []).map(({ drawing, name, plate, quantity }) => ({
      name: `plates/${name}`,
      plate: plate.id,
      quantity,
      ...strokeCounts(drawing),
    })),
  ];
}
