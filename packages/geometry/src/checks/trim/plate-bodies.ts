import { regionArea, regionCentroid } from "../../contour/measure.js";
import type { Frame } from "../../frame/frame.js";
import { measuredThickness } from "../../plates/measured-thickness.js";
import type { SheetMaterial } from "../../plates/plate.js";
import { sheetDensity } from "../../plates/sheet-facts.js";
import { polyethyleneFoamVolume, sheetMaterial } from "../../standards/index.js";
import { inVehicle } from "../assembly/placed-plate.js";
import { cross } from "../assembly/vector-3d.js";
import { type Body, grams } from "./body.js";

/** Pressure up to which the compression of PE foam is known, kPa. */
const PE_FOAM_KNOWN = 175;

/** Every cut plate at each of its seats. Foam displaces what the pressure at depth leaves of it. */
export function plateBodies({ plates }: Frame, pressure: number): readonly Body[] {
  return plates
    .filter((plate) => plate.made === "cut")
    .flatMap((plate) => {
      const { material } = plate.sheet;
      const { density, densityMin, densityMax, source } = sheetDensity(plate.sheet);
      const thickness = measuredThickness(plate.sheet);
      const volume = regionArea(plate.region) * thickness;
      const middle = regionCentroid(plate.region);
      return plate.seats.map(
        (seat): Body => ({
          group: `plates of ${material}`,
          mass: grams(volume, density),
          massMin: grams(volume, densityMin),
          massMax: grams(volume, densityMax),
          volume: volume * shareLeft(plate.sheet, pressure),
          at: inVehicle(seat, cross(seat.u, seat.v), middle, thickness / 2),
          source,
        }),
      );
    });
}

/**
 * Share of its volume that a sheet keeps under an outside pressure, kPa. Rigid foam: bulk modulus E / (3 (1 - 2 nu)), which is
 * E for foams, whose Poisson's ratio is about 1/3 (Gibson and Ashby, Cellular Solids, chapter 5, from memory).
 */
export function shareLeft({ material }: SheetMaterial, pressure: number): number {
  if (material === "PE foam") return polyethyleneFoamVolume(Math.min(pressure, PE_FOAM_KNOWN));
  if (material === "XPS") return 1 - pressure / (1000 * sheetMaterial(material).E);
  return 1;
}
