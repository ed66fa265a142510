import { type Layout, NUT_ROOM, pipeNutSeat } from "../fit/layout.js";
import type { FittedDuct, RodRun } from "../fit/rod-runs.js";
import type { FrameParameters } from "../frame/parameters.js";
import { hexNut } from "../standards/index.js";
import type { Finding } from "./finding.js";
import { numberText } from "./number-text.js";

/** Do rods hold the cheeks together, and do their nuts find room between the pipes? */
export function checkRods(
  parameters: FrameParameters,
  { runs }: Layout,
  ducts: readonly FittedDuct[],
): readonly Finding[] {
  if (runs.length === 0) return nothingHolds(ducts);
  return runs.flatMap((run) => nutsBetweenPipes(run, parameters));
}

/** A duct that is left out or does not fit has its own finding, and would have brought the rods. */
function nothingHolds(ducts: readonly FittedDuct[]): readonly Finding[] {
  if (ducts.length === 0 || ducts.some(({ duct }) => duct.axis === "surge")) return [];
  return [
    {
      id: "fit.cheeks-held",
      severity: "error",
      place: "ducts",
      message:
        "0 rods run across the vehicle and 2 are needed: only surge ducts bring rods that hold the cheeks; add a surge duct",
      measured: 0,
      limit: 2,
      unit: "rods",
      why: "tabs alone slide out of their slots: a cheek without rods comes off, also when the vehicle is lifted by it",
      source: "the design of the frame",
    },
  ];
}

/** Two pipes side by side on the same rods: each has its nut in the gap between them. */
function nutsBetweenPipes(run: RodRun, parameters: FrameParameters): readonly Finding[] {
  const across = run.ducts.toSorted((a, b) => a.middle.y - b.middle.y);
  const needed = 2 * hexNut(parameters.rods.thread).heightMax + NUT_ROOM;
  return across.slice(1).flatMap((port, index): Finding[] => {
    const starboard = across[index] as FittedDuct;
    const between = port.middle.y - starboard.middle.y;
    const room = between - pipeNutSeat(port, parameters) - pipeNutSeat(starboard, parameters);
    if (room >= needed) return [];
    return [
      {
        id: "fit.nuts-between-pipes",
        severity: "error",
        place: `${starboard.duct.id} and ${port.duct.id}`,
        message: `between the two pipes the rods have ${numberText(room)} mm for their nuts, two nuts and room to turn them need ${numberText(needed)} mm: move the ducts at least ${numberText(needed - room)} mm farther apart`,
        measured: room,
        limit: needed,
        why: "each pipe is held by a nut on either side",
        source: "ISO 4032",
      },
    ];
  });
}
