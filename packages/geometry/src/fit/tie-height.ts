import type { FrameParameters } from "../frame/parameters.js";
import { capScrew } from "../standards/index.js";
import { thicknessRange } from "./layout.js";
import type { FittedDuct } from "./rod-runs.js";

/** Air between the carrier's top and the ties that pass inside the pipe, mm. Own choice. */
const TIE_AIR = 3;

/** Height of the tie holes above the deck, mm: over the carrier and the heads of its spacer screws. */
export function tieHoleHeight(fitted: FittedDuct, parameters: FrameParameters): number {
  const carrier = thicknessRange(parameters.sheets.carrier).max;
  const head = capScrew(fitted.duct.carrier.spacerScrew).headHeightMax;
  return Math.ceil(2 * carrier + fitted.fit.gap + head + parameters.ties.width / 2 + TIE_AIR);
}
