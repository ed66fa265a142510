import { foam, sheetMaterial } from "../standards/index.js";
import type { SheetMaterial } from "./plate.js";

/** kg/m3: what a sheet weighs, and between what. */
export interface SheetDensity {
  readonly density: number;
  readonly densityMin: number;
  readonly densityMax: number;
  readonly source: string;
}

/**
 * How much heavier than the table says XPS of a grade may be, for the standard names the least: XPS sold as type IV, of 25
 * kg/m3 at least, weighs 28 to 38. Other foams are sold by their density.
 */
const HEAVIER = { usual: 0.28, most: 0.52 };

/** By the foam's grade where one is stated, else by the material. Throws UnknownEntry. */
export function sheetDensity(sheet: SheetMaterial): SheetDensity {
  if (sheet.foam === undefined || sheet.foam === USUAL_FOAM[sheet.material]) {
    return sheetMaterial(sheet.material);
  }
  const { density, source } = foam(sheet.foam);
  if (!sheet.foam.startsWith("XPS")) return { density, densityMin: density, densityMax: density, source };
  return {
    density: density * (1 + HEAVIER.usual),
    densityMin: density,
    densityMax: density * (1 + HEAVIER.most),
    source: `${source}; as sold, from what type IV weighs`,
  };
}

/** Foams of which a material is taken to be when no grade is stated: the weakest that is common. */
const USUAL_FOAM: Readonly<Record<string, string>> = { XPS: "XPS IV", "PE foam": "PE foam 33" };

/** Name of a sheet in the table of foams; undefined where it is none, or of no known grade. */
export function foamGrade({ material, foam }: SheetMaterial): string | undefined {
  return foam ?? USUAL_FOAM[material];
}

/** Whether a sheet is a foam, whose grade can be named. */
export function isFoam({ material }: SheetMaterial): boolean {
  return /foam|XPS/.test(material);
}
