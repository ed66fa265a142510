import type { FrameParameters, StructuralSheet } from "../frame/parameters.js";
import type { SheetMaterial } from "./plate.js";

/** Thickness of a plate as it will be cut, mm: as measured on the sheet at hand, or nominal. */
export function measuredThickness({ thickness, measured }: SheetMaterial): number {
  return measured ?? thickness;
}

/**
 * The parameters with what is said of one sheet, its measured thickness and its grade of foam, said of every other of its
 * material and nominal thickness: all are cut from the same stock.
 */
export function withSharedMeasures(parameters: FrameParameters): FrameParameters {
  const { sheets, plates } = parameters;
  const all = [
    sheets.structure,
    sheets.carrier,
    ...(sheets.float === undefined ? [] : [sheets.float]),
    ...(plates ?? []).map(({ sheet }) => sheet),
  ];
  const shared = <Sheet extends StructuralSheet>(sheet: Sheet): Sheet => {
    const same = all.filter((other) => isSameStock(other, sheet));
    const measured = sheet.measured ?? same.find((other) => other.measured !== undefined)?.measured;
    const foam = sheet.foam ?? same.find((other) => other.foam !== undefined)?.foam;
    return {
      ...sheet,
      ...(measured === undefined ? {} : { measured }),
      ...(foam === undefined ? {} : { foam }),
    };
  };
  return {
    ...parameters,
    sheets: {
      structure: shared(sheets.structure),
      carrier: shared(sheets.carrier),
      ...(sheets.float === undefined ? {} : { float: shared(sheets.float) }),
    },
    ...(plates === undefined
      ? {}
      : { plates: plates.map((plate) => ({ ...plate, sheet: shared(plate.sheet) })) }),
  };
}

/** Two sheets that are cut from the same stock. */
export function isSameStock(a: SheetMaterial, b: SheetMaterial): boolean {
  return a.material === b.material && a.thickness === b.thickness;
}
