import type { FittedDuct } from "../fit/rod-runs.js";
import type { FrameParameters } from "../frame/parameters.js";
import { measuredThickness } from "../plates/measured-thickness.js";
import { thread } from "../standards/index.js";
import type { Finding } from "./finding.js";
import { numberText } from "./number-text.js";

/** Pipe left between the middle of a rod's hole and the pipe's end, in rod diameters: as in plates. */
const END_DISTANCE = 2;

/** Do all carriers of the ducts stand within their pipes? */
export function checkStations(ducts: readonly FittedDuct[], parameters: FrameParameters): readonly Finding[] {
  return ducts.flatMap((fitted) =>
    fitted.duct.axis === "heave" ? oneOnTheDeck(fitted) : withinPipe(fitted, parameters),
  );
}

/** The carrier of a heave duct is screwed to the deck: it has no place of its own, and there is one. */
function oneOnTheDeck({ duct }: FittedDuct): readonly Finding[] {
  const { stations } = duct.carrier;
  if (stations.length === 1 && stations[0] === 0) return [];
  return [
    {
      id: "fit.heave-stations",
      severity: "error",
      place: `${duct.id}.carrier`,
      message: `stations [${stations.join(", ")}] do not suit a heave duct: it has one carrier, which is screwed to the deck; leave carrier.stations out`,
      why: "only carriers on rods can stand anywhere along their pipe",
      source: "the design of the frame",
    },
  ];
}

function withinPipe({ duct, fit }: FittedDuct, parameters: FrameParameters): readonly Finding[] {
  const plates = fit.gap / 2 + measuredThickness(parameters.sheets.carrier);
  const least = Math.max(plates, END_DISTANCE * thread(parameters.rods.thread).major);
  return duct.carrier.stations.flatMap((station): Finding[] => {
    const left = duct.length / 2 - Math.abs(station);
    if (left >= least) return [];
    return [
      {
        id: "fit.carrier-in-pipe",
        severity: "error",
        place: `${duct.id}.carrier`,
        message: `station ${numberText(station)} is ${left < 0 ? `${numberText(-left)} mm beyond` : `${numberText(left)} mm before`} the pipe's end, at least ${numberText(least)} mm before it are needed: it may be at most ${numberText(duct.length / 2 - least)} mm from the middle, or the duct at least ${numberText(2 * (Math.abs(station) + least))} mm long`,
        measured: left,
        limit: least,
        why: "both plates of a carrier sit in the pipe, and its rods need two diameters of pipe around their holes",
        source: "edge distance in plastics: common practice",
      },
    ];
  });
}
