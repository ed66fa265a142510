import type { Plate } from "@keelcut/geometry";
import type { PageModel, PageNest } from "./model.js";

/** A plate with the number it carries all over the page. */
export interface NumberedPlate {
  readonly number: number;
  readonly plate: Plate;
}

/** One distinct sheet with the number it carries all over the page. */
export interface NumberedSheet {
  readonly number: number;
  readonly nest: PageNest;
  readonly sheet: PageNest["result"]["sheets"][number];
  readonly file?: string;
}

/** Plates numbered 1, 2, ... in the order of the job. */
export function numberPlates(plates: readonly Plate[]): readonly NumberedPlate[] {
  return plates.map((plate, i) => ({ number: i + 1, plate }));
}

/** Distinct sheets numbered 1, 2, ... through all materials. */
export function numberSheets(model: PageModel): readonly NumberedSheet[] {
  let number = 0;
  return model.nests.flatMap((nest) =>
    nest.result.sheets.map((sheet, i) => {
      number += 1;
      const file = nest.sheetFiles?.[i];
      return { number, nest, sheet, ...(file !== undefined && { file }) };
    }),
  );
}

/** Copies of a plate on all sheets, each sheet counted as often as it is cut. */
export function copiesLaid(plate: Plate, sheets: readonly NumberedSheet[]): number {
  return sheets.reduce(
    (sum, { sheet }) => sum + sheet.times * sheet.placements.filter((at) => at.part === plate.id).length,
    0,
  );
}

/** The plate a placement names; an unknown name is a fault of the caller, not something to draw around. */
export function plateNamed(plates: readonly NumberedPlate[], id: string): NumberedPlate {
  const found = plates.find((p) => p.plate.id === id);
  if (found === undefined) throw new RangeError(`a sheet holds the plate ${id}, which is not in the job`);
  return found;
}
