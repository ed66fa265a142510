import type { Plate } from "@keelcut/geometry";
import type { ShopProfile } from "../input/shop-profile.js";
import type { OutputFile } from "../output/folder.js";
import type { Drawing, SizeState } from "../output/index.js";
import { type Certificate, type Expectations, prove } from "../prove/index.js";
import type { CutFiles, DrawnPlate, DrawnSheet } from "./cut-files.js";

export interface ToProve {
  readonly sheets: CutFiles<DrawnSheet>;
  /** Absent when only sheets were drawn. */
  readonly plateFiles?: CutFiles<DrawnPlate>;
  readonly plates: readonly Plate[];
  readonly demand: (plate: Plate) => number;
  readonly size: SizeState;
  readonly shop: ShopProfile;
}

/** Reads the drawings of a job back, as a stranger would, and compares them with what they must show. */
export function proved(job: ToProve): Certificate {
  const files = [...job.sheets.files, ...(job.plateFiles?.files ?? [])];
  return prove(files.map(writtenFile), expectationsOf(job));
}

function writtenFile({ path, content }: OutputFile): { name: string; text: string } {
  return { name: path, text: typeof content === "string" ? content : new TextDecoder().decode(content) };
}

function expectationsOf({ sheets, plateFiles, plates, demand, size, shop }: ToProve): Expectations {
  const { layerNames, layers } = shop.files;
  return {
    size,
    clearance: shop.cutting.kerf + shop.cutting.safetyGap,
    edgeMargin: shop.cutting.edgeMargin,
    layers: layers === "single" ? { ...layerNames, opening: layerNames.outline } : layerNames,
    formats: ["dxf", "svg"],
    plates: plates.map((plate) => ({
      id: plate.id,
      region: plate.region,
      copies: demand(plate),
      printed: plate.made === "printed",
    })),
    sheets: sheets.drawn.map(({ drawing, name, sheet, stock }) => ({
      name,
      stockOutline: stock.outline,
      keepOuts: stock.keepOuts,
      times: sheet.times,
      placements: sheet.placements.map(({ part, ...placement }) => ({ ...placement, plate: part })),
      reference: { stock: shop.files.stockOutline, ...strokes(drawing) },
    })),
    plateFiles: (plateFiles?.drawn ?? []).map(({ drawing, name, plate, quantity }) => ({
      name,
      plate: plate.id,
      quantity,
      reference: strokes(drawing),
    })),
  };
}

/** How many strokes were drawn beside the cuts: of marks, and of the note, which shares the stock's layer. */
function strokes({ entities }: Drawing): { markStrokes: number; noteStrokes: number } {
  const count = (layer: string): number =>
    entities.filter((entity) => entity.layer === layer && entity.kind === "path").length;
  return { markStrokes: count("mark"), noteStrokes: count("stock") };
}
