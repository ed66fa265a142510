import type { Machine } from "../../fit/machine.js";
import { thread } from "../../standards/index.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { cutEdge } from "./sources.js";
import { about, jointFinding } from "./stack.js";

/** A propeller's radius, plus or minus mm. Own choice: moulded and printed ones differ by that. */
const PROPELLER = 0.25;

/**
 * Does the propeller clear the wall when the carrier lies against it? The rim then touches the bore, whatever its
 * size, so the tip stays as far from the wall as it stands inside the rim.
 */
export function propellerInBore({ ducts, parameters }: Machine): readonly Finding[] {
  const edge = cutEdge(parameters.cutting);
  return ducts.flatMap(({ duct, fit }): readonly Finding[] => {
    const motor = parameters.motors[duct.motor];
    if (duct.propeller === undefined || motor === undefined) return [];
    const play = (fit.motorHole - thread(motor.screw).majorMin) / 2;
    return [
      jointFinding({
        id: "fit.propeller-tip",
        place: `${duct.id}.propeller`,
        what: `the tip of a ${numberText(duct.propeller.diameter)} mm propeller, its carrier pushed against the wall, stays clear of it by`,
        cure: "use a smaller propeller, or measure the pipe so that the rim can be larger",
        why: "the carrier has play in the bore and the motor has play on the carrier",
        contributions: [
          about("half the rim", fit.rimRadius, edge.deviation, 1, edge.source),
          about("motor holes from the rim's middle", 0, edge.deviation, 1, edge.source),
          about("play of the motor screws in their holes", 0, play, 1, "ISO 273 medium; ISO 965-2, 6g"),
          about("half the propeller", duct.propeller.diameter / 2, PROPELLER, -1, "propellers: own choice"),
        ],
        gravest: "error",
      }),
    ];
  });
}
