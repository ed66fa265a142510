import type { SheetMaterial } from "@keelcut/geometry";

/** `PE-HD 10 mm, measured 10.1`: the sheet as it is sold, and as it was found to be. */
export function sheetText({ material, thickness, measured }: SheetMaterial): string {
  return `${material} ${thickness} mm${measured === undefined ? "" : `, measured ${measured}`}`;
}
