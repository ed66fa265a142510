import type { Machine } from "../fit/machine.js";
import type { Plate } from "../plates/plate.js";
import type { Finding } from "./finding.js";
import { clamping } from "./strength/clamping.js";
import { deck } from "./strength/deck.js";
import { estimateFindings } from "./strength/estimate.js";
import { expansion } from "./strength/expansion.js";
import { feet } from "./strength/feet.js";
import { grips } from "./strength/grips.js";
import { loadsOf } from "./strength/loads.js";
import { edgeDistance, rods } from "./strength/rods.js";
import type { KnownBodies } from "./trim/body.js";

/** First-order strength of what is lifted, landed on and bolted, from the mass that is known. An estimate, never a proof. */
export function checkStrength(
  machine: Machine,
  plates: readonly Plate[],
  known: KnownBodies,
): readonly Finding[] {
  const loads = loadsOf(known, machine.parameters);
  const estimates = [
    ...grips(plates, loads),
    ...deck(plates, machine, loads),
    ...feet(machine, loads),
    ...rods(machine, plates, known, loads),
  ];
  return [
    ...estimateFindings(estimates, loads.mass),
    ...edgeDistance(machine, plates),
    ...clamping(machine),
    ...expansion(machine),
  ];
}
