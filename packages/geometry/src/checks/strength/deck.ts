import { regionBounds } from "../../contour/bounds.js";
import type { Region } from "../../contour/contour.js";
import { boltReach } from "../../features/bolt-pattern.js";
import { TAB_END_PLAY } from "../../features/tab-joint.js";
import type { Machine } from "../../fit/machine.js";
import type { Plate } from "../../plates/plate.js";
import { sheetMaterial } from "../../standards/index.js";
import { materialOf, stretchesAlong } from "../assembly/material-along-line.js";
import { numberText } from "../number-text.js";
import type { Estimate } from "./estimate.js";
import { netTension } from "./formulas/bolted-joint.js";
import { centrallyLoaded, type RectangularPlate, uniformlyLoaded } from "./formulas/roark-plate.js";
import { allowedStress, type Loads, newtons } from "./loads.js";

/** Lines along the deck on which its material is measured. */
const LINES = 9;

/**
 * The deck carries the whole vehicle from cheek to cheek when it lands. Taken as the endless strip of Roark's table: its fore and
 * aft edges are free, bulkheads are left out, and openings raise the stress as they take material away.
 */
export function deck(plates: readonly Plate[], machine: Machine, loads: Loads): readonly Estimate[] {
  const { layout } = machine;
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
    ...heaviestPod(machine, strip, material, net, loads),
    tabSection(plate, machine, loads),
  ];
}

/** The heaviest bought part presses on the middle of the deck, within its bolts. */
function heaviestPod(
  { parameters }: Machine,
  strip: RectangularPlate,
  material: string,
  net: number,
  { factors }: Loads,
): readonly Estimate[] {
  const pods = (parameters.pods ?? []).flatMap(({ id, pattern, body }) =>
    body === undefined ? [] : [{ id, mass: body.mass, reach: boltReach(pattern) }],
  );
  const [heaviest] = pods.sort((a, b) => b.mass - a.mass);
  if (heaviest === undefined) return [];
  const load = factors.landingFactor * newtons(heaviest.mass);
  const bent = centrallyLoaded(strip, load / net, heaviest.reach);
  return [
    {
      id: "strength.deck-under-pod",
      place: `pods.${heaviest.id}`,
      what: `the deck under ${heaviest.id}, landing with ${numberText(load)} N on a circle of ${numberText(2 * heaviest.reach)} mm`,
      stress: bent.stress,
      deflection: bent.deflection,
      allowed: allowedStress(material),
      cure: "move it to a cheek or over a bulkhead, or use a thicker or stronger sheet",
      source: "Roark, 7th ed., table 11.4 case 1b, a/b infinite; share of material: own choice",
    },
  ];
}

/** One cheek, lifted by its grip, carries the vehicle on the material between its tab slots. */
function tabSection(plate: Plate, { parameters, deckTabs }: Machine, { lift }: Loads): Estimate {
  const { length } = parameters.deck;
  const { material, thickness } = plate.sheet;
  return {
    id: "strength.tab-section",
    place: "cheek",
    what: `the cheek between its ${deckTabs.centres.length} tab slots, lifted with ${numberText(lift)} N`,
    stress: netTension(lift, length, deckTabs.centres.length, deckTabs.length + TAB_END_PLAY, thickness),
    allowed: allowedStress(material),
    cure: "use fewer or shorter tabs",
    source: "Shigley, chapter 8, tension of the net section",
  };
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
