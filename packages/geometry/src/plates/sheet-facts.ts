import { foam, sheetMaterial } from "../standards/index.js";
import type { SheetMaterial } from "./plate.js";

/** kg/m3: what a sheet weighs, and between what. */
export interface SheetDensity {
  readonly density: number;
  readonly densityMin: number;
  readonly densityMax: number;
  readonly source: string;
}

/** How much heavier than the table says a foam of its grade may be: what standards name is the least. Own choice. */
const HEAVIER = 0.2;

/** By the foam's grade where one is stated, else by the material. Throws UnknownEntry. */
export function sheetDensity(sheet: SheetMaterial): SheetDensity {
  if (sheet.foam === undefined) return sheetMaterial(sheet.material);
  const { density, source } = foam(sheet.foam);
  return { density, densityMin: density, densityMax: density * (1 + HEAVIER), source };
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
