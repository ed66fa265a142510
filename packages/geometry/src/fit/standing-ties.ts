import { type TiePlaces, tiePlaces } from "../features/tie-place.js";
import type { FrameParameters } from "../frame/parameters.js";
import { measuredThickness } from "../plates/measured-thickness.js";
import { usualAccuracy } from "../standards/cutting/accuracy.js";
import { thread } from "../standards/index.js";
import type { FittedDuct } from "./rod-runs.js";
import { tieHoleHeight } from "./tie-height.js";

/** Where ties hold a duct that stands on the deck, with room for them wherever the pipe comes to stand. */
export function standingTies(fitted: FittedDuct, parameters: FrameParameters): TiePlaces {
  const { pipe } = fitted;
  return tiePlaces(
    parameters.ties,
    parameters.cutting,
    { outside: pipe.outsideWorst, wallMax: pipe.wallMax, aside: pipeAside(fitted, parameters) },
    measuredThickness(parameters.sheets.structure),
    tieHoleHeight(fitted, parameters),
  );
}

/** How far from its axis a pipe may stand, mm: its play on the carrier's rim, and that of the carrier's screws. */
function pipeAside({ duct, fit, pipe }: FittedDuct, { cutting }: FrameParameters): number {
  const accuracy = cutting.accuracy ?? usualAccuracy;
  const onRim = pipe.boreMax / 2 - (fit.rimRadius - accuracy);
  const inDeck = (fit.pinHole - thread(duct.carrier.spacerScrew).majorMin) / 2;
  return onRim + inDeck;
}
