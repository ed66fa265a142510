import type { FrameParameters, StructuralSheet } from "../frame/parameters.js";
import type { SheetMaterial } from "./plate.js";

/** Thickness of a plate's sheet, mm: as measured on the sheet at hand, or nominal. */
export function measuredThickness(
  { material, thickness }: SheetMaterial,
  { sheets, plates = [] }: Pick<FrameParameters, "sheets" | "plates">,
): number {
  const all: readonly (Pick<StructuralSheet, "material" | "thickness" | "measured"> | undefined)[] = [
    sheets.structure,
    sheets.carrier,
    sheets.float,
    ...plates.map(({ sheet }) => sheet),
  ];
  const same = all.find(
    (one) => one?.material === material && one.thickness === thickness && one.measured !== undefined,
  );
  return same?.measured ?? thickness;
}
