import type { CuttingParameters } from "../frame/parameters.js";
import type { Plate } from "../plates/plate.js";
import { type CuttabilityLimits, cutOf } from "./cuttability/cut.js";
import { inputFindings } from "./cuttability/hazards-and-depth.js";
import { cornerFindings } from "./cuttability/inside-corners.js";
import { openingFindings } from "./cuttability/openings.js";
import { edgeDistanceFindings, webFindings } from "./cuttability/webs.js";
import { plateFindings } from "./cuttability/whole-plate.js";
import type { Finding } from "./finding.js";

export { type CuttabilityLimits, isDrilled } from "./cuttability/cut.js";

/**
 * Can this plate be cut by this method, and what will the cut look like?
 *
 * Looks at inside corners, widths of openings and notches, webs, distances to the edge, loose cores, size and slenderness
 * of the plate, thickness, and hazards of the material. The limits are the table `featureLimits`; `limits` replaces
 * those that the shop states. Alike findings of one plate are one finding with a count.
 *
 * The plate is taken at its nominal size: the cut is a disc of diameter kerf that must stay off the material. A
 * `printed` plate is not cut and has no findings. Throws RangeError unless kerf and thickness are above 0 mm.
 */
export function checkCuttability(
  plate: Plate,
  cutting: CuttingParameters,
  limits: CuttabilityLimits = {},
): Finding[] {
  const cut = cutOf(plate, cutting, limits);
  if (plate.made === "printed") return [];
  return [
    ...inputFindings(cut),
    ...openingFindings(cut),
    ...webFindings(cut),
    ...edgeDistanceFindings(cut),
    ...cornerFindings(cut),
    ...plateFindings(cut),
  ];
}
