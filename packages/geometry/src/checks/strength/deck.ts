import { regionBounds } from "../../contour/bounds.js";
import type { Region } from "../../contour/contour.js";
import type { Machine } from "../../fit/machine.js";
import type { Plate } from "../../plates/plate.js";
import { sheetMaterial } from "../../standards/index.js";
import { materialOf, stretchesAlong } from "../assembly/material-along-line.js";
import { numberText } from "../number-text.js";
import type { Estimate } from "./estimate.js";
import { uniformlyLoaded } from "./formulas/roark-plate.js";
import { allowedStress, type Loads } from "./loads.js";

/** Lines along the deck on which its material is measured. */
const LINES = 9;

/**
 * The deck carries the whole vehicle from cheek to cheek when it lands. Taken as the endless strip of Roark's table: its fore and
 * aft edges are free, bulkheads are left out, and openings raise the stress as they take material away.
 */
export function deck(plates: readonly Plate[], { layout }: Machine, loads: Loads): readonly Estimate[] {
  const plate = plates.find(({ template }) => template === "deck");
  if (plate === undefined) return [];
  const box = regionBounds(plate.region);
  const length = box.maxX - box.minX;
  const { material, thickness } = plate.sheet;
  const net = leastMaterial(plate.region, layout.innerWidth / 2) / length;
  const strip = {
    a: Number.POSITIVE_INFINITY,
    b: layout.innerWidth,
    t: thickness,
    E: sheetMaterial(material).E,
  };
  const bent = uniformlyLoaded(strip, loads.landing / (length * layout.innerWidth) / net);
  return [
    {
      id: "strength.deck",
      place: plate.id,
      what: `the deck between the cheeks, ${numberText(100 * net)} % of it material where it is weakest, landing with ${numberText(loads.landing)} N (${numberText(loads.factors.landingFactor)} x the weight)${bent.valid ? "" : " (beyond the formula's range of small deflections)"}`,
      stress: bent.stress,
      deflection: bent.deflection,
      allowed: allowedStress(material),
      cure: "add a bulkhead, or use a thicker or stronger sheet",
      source: "Roark, 7th ed., table 11.4 case 1a, a/b infinite; share of material: own choice",
    },
  ];
}

/** Least length of material along lines from end to end, in the middle half of the width, mm. */
function leastMaterial(region: Region, halfWidth: number): number {
  const material = materialOf(region);
  const { minX, maxX } = regionBounds(region);
  const sums = Array.from({ length: LINES }, (_, index) => {
    const y = halfWidth * ((index + 0.5) / LINES - 0.5);
    return stretchesAlong(material, { x: 0, y }, { x: 1, y: 0 }, { from: minX - 1, to: maxX + 1 }).reduce(
      (sum, { from, to }) => sum + to - from,
      0,
    );
  });
  return Math.max(1, Math.min(...sums));
}
