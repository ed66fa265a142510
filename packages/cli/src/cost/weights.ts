import { type Frame, regionArea, sheetMaterial, UnknownEntry } from "@keelcut/geometry";
import type { StockList } from "../input/stock-list.js";
import type { Unweighed, Weights } from "./cost-estimate.js";

/** Grams of one kit: plates from area, thickness and the material's density; bought things where the stock list has a mass. */
export function kitWeights(frame: Frame, stockList: Pick<StockList, "hardware" | "lengths">): Weights {
  const missing: Unweighed[] = [];
  const note = (what: string, why: string): void => {
    if (!missing.some((each) => each.what === what && each.why === why)) missing.push({ what, why });
  };
  const plates = frame.plates
    .filter((plate) => plate.made === "cut")
    .reduce((sum, plate) => {
      const density = densityOf(plate.sheet.material);
      if (density === undefined) note(plate.sheet.material, "no density in the table of sheet materials");
      // kg/m3 is 1e-6 g/mm3.
      const volume = plate.count * regionArea(plate.region) * plate.sheet.thickness;
      return sum + volume * (density ?? 0) * 1e-6;
    }, 0);
  const hardware = frame.hardware.reduce((sum, item) => {
    const mass = stockList.hardware.find(
      (entry) => entry.item === item.item && entry.mass !== undefined,
    )?.mass;
    if (mass === undefined) note(item.item, "no mass in the stock list");
    return sum + item.count * (mass ?? 0);
  }, 0);
  const lengths = frame.lengths.reduce((sum, item) => {
    const entry = stockList.lengths.find(
      (candidate) => candidate.item === item.item && candidate.massPerMetre !== undefined,
    );
    if (entry === undefined) note(item.item, "no massPerMetre in the stock list");
    return sum + (item.count * item.length * (entry?.massPerMetre ?? 0)) / 1000;
  }, 0);
  return { plates, hardware, lengths, total: plates + hardware + lengths, missing };
}

function densityOf(material: string): number | undefined {
  try {
    return sheetMaterial(material).density;
  } catch (error) {
    if (error instanceof UnknownEntry) return undefined;
    throw error;
  }
}
