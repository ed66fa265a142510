import { bounds, regionBounds } from "../../contour/bounds.js";
import { contourGap } from "../../contour/distance.js";
import { type Feature, featureContour, type Plate } from "../../plates/plate.js";
import { sheetMaterial } from "../../standards/index.js";
import { numberText } from "../number-text.js";
import type { Estimate } from "./estimate.js";
import { rectangular, simpleCentre } from "./formulas/beam.js";
import { allowedStress, type Loads } from "./loads.js";

/** The vehicle hangs in one hand, by the middle of a grip. */
export function grips(plates: readonly Plate[], loads: Loads): readonly Estimate[] {
  return plates.flatMap((plate) => [...cheekGrip(plate, loads), ...barGrip(plate, loads)]);
}

const BEAM = "Shigley, table A-9, two supports and a force in the middle";

/** Above the grip of a cheek a web of plate stands on edge: a beam as long as the grip. */
function cheekGrip(plate: Plate, { lift, factors }: Loads): readonly Estimate[] {
  const grip = gripOf(plate);
  if (grip === undefined || plate.template !== "cheek") return [];
  const opening = featureContour(plate, grip);
  const box = bounds(opening);
  const web = contourGap(opening, plate.region.outer).distance;
  const { material, thickness } = plate.sheet;
  const bent = simpleCentre(
    rectangular(thickness, web, sheetMaterial(material).E),
    lift,
    box.maxX - box.minX,
  );
  return [
    {
      id: "strength.grip",
      place: plate.id,
      what: `the web of ${numberText(web)} mm above a grip of ${numberText(box.maxX - box.minX)} mm, lifted with ${numberText(lift)} N (${numberText(factors.liftFactor)} x the weight)`,
      ...bent,
      allowed: allowedStress(material),
      cure: "lift by both grips, give each cheek a thicker or stronger sheet, or add handles",
      source: BEAM,
    },
  ];
}

function gripOf({ features }: Plate): Feature | undefined {
  return features.find(({ kind, name }) => kind === "window" && name === "grip");
}

/** A handle bar bends as a plate from cheek to cheek; beside the grip two webs carry it. */
function barGrip(plate: Plate, { lift, factors }: Loads): readonly Estimate[] {
  const grip = gripOf(plate);
  if (grip === undefined || plate.template !== "handle") return [];
  const hole = bounds(featureContour(plate, grip));
  const box = regionBounds(plate.region);
  const wide = box.maxX - box.minX - (hole.maxX - hole.minX);
  const span = box.maxY - box.minY;
  const { material, thickness } = plate.sheet;
  return [
    {
      id: "strength.handle-bar",
      place: plate.id,
      what: `${numberText(wide)} mm of plate beside the grip of a bar of ${numberText(span)} mm, lifted with ${numberText(lift)} N (${numberText(factors.liftFactor)} x the weight)`,
      ...simpleCentre(rectangular(wide, thickness, sheetMaterial(material).E), lift, span),
      allowed: allowedStress(material),
      cure: "make the handle wider, or use a thicker or stronger sheet",
      source: BEAM,
    },
  ];
}
