import type { Machine } from "../../fit/machine.js";
import { belowSkids } from "../../plates/skid.js";
import { sheetMaterial } from "../../standards/index.js";
import { numberText } from "../number-text.js";
import type { Estimate } from "./estimate.js";
import { cantilever, rectangular } from "./formulas/beam.js";
import { allowedStress, type Loads } from "./loads.js";

/** Side force on a foot over its upright load: plastic sliding on a rough floor. Own choice. */
const SIDEWAYS = 0.5;

/** Landing on two feet while drifting sideways bends each foot out of the cheek's plane, below the deck. */
export function feet({ parameters, layout }: Machine, loads: Loads): readonly Estimate[] {
  const { below, footLength } = parameters.cheek;
  const { material, thickness } = parameters.sheets.structure;
  // A skid is one more sheet under the foot, and the tabs stand out below it.
  const skid = parameters.skids === undefined ? 0 : thickness + belowSkids(parameters);
  const free = below - layout.structure.max + skid;
  if (!(free > 0)) return [];
  const side = (SIDEWAYS * loads.landing) / 2;
  return [
    {
      id: "strength.foot",
      place: "cheek",
      what: `a foot of ${numberText(footLength)} mm, ${numberText(free)} mm below the deck, pushed sideways with ${numberText(side)} N (half of ${numberText(loads.factors.landingFactor)} x the weight on two feet)`,
      ...cantilever(rectangular(footLength, thickness, sheetMaterial(material).E), side, free),
      allowed: allowedStress(material),
      cure: "make cheek.footLength longer or cheek.below shorter, add skids, or use a thicker sheet",
      source: "Shigley, table A-9, cantilever with an end load",
    },
  ];
}
