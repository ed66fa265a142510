import {
  type Frame,
  type HardwareItem,
  type LengthItem,
  measuredThickness,
  regionArea,
  type SheetMaterial,
  sheetDensity,
  UnknownEntry,
} from "@keelcut/geometry";
import type { StockList } from "../input/stock-list.js";
import type { Unweighed, Weights } from "./cost-estimate.js";

/** Grams of one kit: plates from area, thickness and the material's density; bought things as weighed or derived. */
export function kitWeights(frame: Frame, stockList: Pick<StockList, "hardware" | "lengths">): Weights {
  const missing: Unweighed[] = [];
  const note = (what: string, why: string): void => {
    if (!missing.some((each) => each.what === what && each.why === why)) missing.push({ what, why });
  };
  const plates = frame.plates
    .filter((plate) => plate.made === "cut")
    .reduce((sum, plate) => {
      const density = densityOf(plate.sheet);
      if (density === undefined) note(plate.sheet.material, "no density in the table of sheet materials");
      // kg/m3 is 1e-6 g/mm3.
      const thickness = measuredThickness(plate.sheet);
      const volume = plate.count * regionArea(plate.region) * thickness;
      return sum + volume * (density ?? 0) * 1e-6;
    }, 0);
  const hardware = frame.hardware.reduce((sum, item) => {
    const mass = hardwareMass(item, stockList);
    if (mass === undefined) note(item.item, "no mass in the frame file or the stock list");
    return sum + item.count * (mass ?? 0);
  }, 0);
  const lengths = frame.lengths.reduce((sum, item) => sum + item.count * lengthMass(item, stockList), 0);
  return { plates, hardware, lengths, total: plates + hardware + lengths, missing };
}

/** Of one piece, g: as the stock list has it, else as the frame tells; undefined when neither does. */
export function hardwareMass(
  { item, mass }: HardwareItem,
  { hardware }: Pick<StockList, "hardware">,
): number | undefined {
  return hardware.find((entry) => entry.item === item && entry.mass !== undefined)?.mass ?? mass;
}

/** Of one piece, g: as the stock list has it, else as the frame tells. */
export function lengthMass(
  { item, length, mass }: LengthItem,
  { lengths }: Pick<StockList, "lengths">,
): number {
  const perMetre = lengths.find(
    (entry) => entry.item === item && entry.massPerMetre !== undefined,
  )?.massPerMetre;
  return perMetre === undefined ? mass : (length * perMetre) / 1000;
}

function densityOf(sheet: SheetMaterial): number | undefined {
  try {
    return sheetDensity(sheet).density;
  } catch (error) {
    if (error instanceof UnknownEntry) return undefined;
    throw error;
  }
}
