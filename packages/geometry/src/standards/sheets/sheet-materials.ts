import { lookUp, type Table } from "../table.js";
import { nearestNames, UnknownEntry } from "../unknown-entry.js";
import { type Hazards, hazardsOf } from "./hazards.js";
import {
  acetal,
  aluminium,
  birchPlywood,
  castAcrylic,
  extrudedAcrylic,
  extrudedPolyethylene,
  extrudedPolypropylene,
  otherPlastic,
  polycarbonate,
  polystyreneFoam,
  rigidPvc,
  softFoam,
  type ThicknessRule,
  thicknessTolerance,
} from "./thickness-tolerance.js";

/** What the checks and costs know of a sheet material, at 23 degrees Celsius. */
export interface SheetMaterialFacts {
  /** kg/m3, for masses. */
  readonly density: number;
  readonly densityMin: number;
  readonly densityMax: number;
  /** Modulus of elasticity, MPa: the low end of the printed range, short-term. */
  readonly E: number;
  /** Yield stress, MPa: the low end. Plywood: bending strength across the face grain. Foam: compression at 10 % strain. */
  readonly yield: number;
  /** Thermal expansion, 1/K: the high end of the printed range where nothing better is known. */
  readonly expansion: number;
  /** Plus or minus, mm, of a sheet of nominal thickness t, mm. Throws RangeError where the standard ends. */
  thicknessTolerance(t: number): number;
  readonly thicknessSource: string;
  readonly hazards: Hazards;
  /** True when plates must keep a direction on the sheet. */
  readonly grain: boolean;
  readonly source: string;
}

/** A sheet material by name, for example `PE-HD`. Throws UnknownEntry, which also knows everyday names (HDPE, acrylic). */
export function sheetMaterial(name: string): SheetMaterialFacts {
  if (!isSheetMaterial(name)) throw unknownMaterial(name);
  const { thickness, ...row } = lookUp(sheetMaterials, name);
  return {
    ...row,
    thicknessTolerance: (t) => thicknessTolerance(thickness, t),
    thicknessSource: thickness.source,
    hazards: hazardsOf(name),
  };
}

/** True when the table of sheet materials has that name. */
export function isSheetMaterial(name: string): boolean {
  return Object.hasOwn(sheetMaterials.rows, name);
}

/** One row of the table: the facts before the thickness rule and the hazards are attached. */
export interface SheetMaterialRow
  extends Omit<SheetMaterialFacts, "thicknessTolerance" | "thicknessSource" | "hazards"> {
  readonly thickness: ThicknessRule;
}

/** Names that people use for the materials of the table, for the nearest-name hint only. */
const alsoCalled: Readonly<Record<string, readonly string[]>> = {
  "PE-HD": ["HDPE", "PE", "PE-HMW", "polyethylene"],
  "PP-H": ["PP", "polypropylene"],
  "PVC-U": ["PVC", "uPVC", "rigid PVC", "PVC-U rigid"],
  "PVC foamed": ["foam PVC", "foamed PVC", "expanded PVC", "foamboard"],
  "PMMA cast": ["PMMA", "acrylic", "cast acrylic", "acrylic glass"],
  "PMMA extruded": ["PMMA", "extruded acrylic"],
  PC: ["polycarbonate"],
  "POM-C": ["POM", "POM-H", "acetal", "polyacetal"],
  "birch plywood": ["plywood", "ply", "birch"],
  "Al 5083": ["aluminium", "aluminum", "AlMg4.5Mn"],
  "Al 6061": ["aluminium", "aluminum"],
  XPS: ["polystyrene foam", "styrofoam", "extruded polystyrene"],
  "PE foam": ["polyethylene foam", "EPE"],
};

function unknownMaterial(asked: string): UnknownEntry {
  const known = Object.keys(sheetMaterials.rows);
  const meant = known.filter((name) =>
    (alsoCalled[name] ?? []).some((other) => other.toLowerCase() === asked.trim().toLowerCase()),
  );
  const nearest = [...meant, ...nearestNames(asked, known).filter((name) => !meant.includes(name))];
  return new UnknownEntry(sheetMaterials.title, asked, nearest.slice(0, 3));
}

const handbooks = "Typical values of data sheets and handbooks (ISO 178, ISO 527, ISO 1183 tests)";

/**
 * Expansion of PE-HD: printed from 36 to 220e-6/K; 36 is wrong by about four, 180 is a good mean of the rest. Water
 * uptake of PMMA is printed as 2.1 and 0.7 % at saturation and is not in the table.
 */
export const sheetMaterials: Table<SheetMaterialRow> = {
  id: "sheet-materials",
  title: "Sheet materials",
  source: "Typical values of data sheets and handbooks at 23 C; thickness by the standard of each material",
  basis: "common practice",
  unit: "density kg/m3; E and yield MPa; expansion 1/K; thickness +- mm",
  note: "E and yield are the low end of the printed ranges: permanent load on PE and PP wants a quarter to a half of E (creep).",
  key: "material",
  columns: [
    "density",
    "densityMin",
    "densityMax",
    "E",
    "yield",
    "expansion",
    "grain",
    "thickness",
    "thicknessSource",
    "source",
  ],
  rows: {
    "PE-HD": plastic([955, 940, 970], 800, 20, 180e-6, extrudedPolyethylene),
    "PP-H": plastic([905, 900, 910], 1300, 31, 160e-6, extrudedPolypropylene),
    "PVC-U": plastic([1400, 1350, 1450], 2800, 50, 80e-6, rigidPvc),
    "PVC foamed": plastic(
      [550, 350, 750],
      800,
      12,
      80e-6,
      otherPlastic,
      "Densities as sold; E and yield from memory",
    ),
    "PMMA cast": plastic([1190, 1180, 1190], 2760, 62, 80e-6, castAcrylic),
    "PMMA extruded": plastic(
      [1190, 1180, 1190],
      2760,
      62,
      80e-6,
      extrudedAcrylic,
      `${handbooks}; taken as cast sheet`,
    ),
    PC: plastic([1200, 1190, 1200], 2300, 58, 70e-6, polycarbonate),
    "POM-C": plastic([1410, 1390, 1410], 2500, 65, 120e-6, acetal),
    ABS: plastic([1050, 1020, 1080], 2000, 38, 95e-6, otherPlastic),
    "birch plywood": {
      density: 680,
      densityMin: 660,
      densityMax: 710,
      E: 6000,
      yield: 30,
      expansion: 8e-6,
      grain: true,
      thickness: birchPlywood,
      source: "Birch plywood handbook tables; E and bending strength (EN 789) from memory",
    },
    "Al 5083": metal(2660, 70000, 125, 23.8e-6, "EN 485-2, temper H111, from memory"),
    "Al 6061": metal(2700, 68900, 276, 23.6e-6, "Handbook values, temper T6"),
    XPS: plastic(
      [32, 28, 38],
      10,
      0.173,
      70e-6,
      polystyreneFoam,
      "ASTM C578 type IV compression; density as sold; E and expansion from memory",
    ),
    "PE foam": plastic(
      [33, 30, 36],
      0.16,
      0.04,
      180e-6,
      softFoam,
      "Closed-cell PE foam of 33 kg/m3: 40 kPa at 25 % strain; expansion as PE-HD, from memory",
    ),
  },
};

function plastic(
  [density, densityMin, densityMax]: readonly [number, number, number],
  E: number,
  yieldStress: number,
  expansion: number,
  thickness: ThicknessRule,
  source: string = handbooks,
): SheetMaterialRow {
  return {
    density,
    densityMin,
    densityMax,
    E,
    yield: yieldStress,
    expansion,
    grain: false,
    thickness,
    source,
  };
}

function metal(
  density: number,
  E: number,
  yieldStress: number,
  expansion: number,
  source: string,
): SheetMaterialRow {
  return {
    density,
    densityMin: density,
    densityMax: density,
    E,
    yield: yieldStress,
    expansion,
    grain: false,
    thickness: aluminium,
    source,
  };
}
