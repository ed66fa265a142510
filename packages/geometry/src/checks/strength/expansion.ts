import type { Machine } from "../../fit/machine.js";
import { sheetMaterial } from "../../standards/index.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { CAUTION } from "./estimate.js";

/** 1/K. Austenitic stainless steel, as rods for water are; from memory. */
const ROD_EXPANSION = 16e-6;

/** From a warm boot to cold water, K. Own choice. */
const SWING = 20;

/** Less than this goes unnoticed between nuts that are tightened by feel, mm. Own choice. */
const UNNOTICED = 0.5;

/**
 * How much more than the rods the deck changes between the cheeks when the temperature does: dl = (a1 - a2) l dT. A deck that
 * grows bends the cheeks about their nuts; one that shrinks leaves them loose.
 */
export function expansion({ parameters, layout }: Machine): readonly Finding[] {
  const { material } = parameters.sheets.structure;
  const { expansion: deck, source } = sheetMaterial(material);
  const changes = Math.abs(deck - ROD_EXPANSION) * layout.innerWidth * SWING;
  if (layout.runs.length === 0 || changes < UNNOTICED) return [];
  return [
    {
      id: "strength.expansion",
      severity: "note",
      place: "deck, rods",
      message: `when it gets ${SWING} degrees warmer or colder, the ${numberText(layout.innerWidth)} mm of ${material} between the cheeks change by ${numberText(changes)} mm more than the rods: tighten the nuts by feel at the temperature of the water, not hard in the sun or in the cold, and look after them`,
      measured: changes,
      limit: UNNOTICED,
      why: `nuts that were tight in the cold press into a warm plate, nuts that were tight in the sun are loose in the water; ${CAUTION}`,
      source: `${source}; stainless steel 16e-6 1/K: from memory`,
    },
  ];
}
