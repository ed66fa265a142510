import type { CarrierFit } from "../../fit/carrier-fit.js";
import type { Machine } from "../../fit/machine.js";
import type { DuctParameters, FrameParameters, MotorParameters } from "../../frame/parameters.js";
import { thread } from "../../standards/index.js";
import { PROPELLER_AIR } from "../carrier-fit-check.js";
import type { Contribution, Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { cutEdge } from "./sources.js";
import { about, jointFinding } from "./stack.js";

/** A propeller's radius, plus or minus mm. Own choice: moulded and printed ones differ by that. */
const PROPELLER = 0.25;

/**
 * Does the propeller clear the wall when the carrier lies against it? The rim then touches the bore, whatever its
 * size, so the tip stays as far from the wall as it stands inside the rim, less what the carrier leans.
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
        why: "the carrier has play in the bore and leans on its rods, and the motor has play on the carrier",
        contributions: [
          about("half the rim", fit.rimRadius, edge.deviation, 1, edge.source),
          about("motor holes from the rim's middle", 0, edge.deviation, 1, edge.source),
          about("play of the motor screws in their holes", 0, play, 1, "ISO 273 medium; ISO 965-2, 6g"),
          ...(duct.axis === "heave" ? [] : [tilt(duct, fit, motor, parameters)]),
          about("half the propeller", duct.propeller.diameter / 2, PROPELLER, -1, "propellers: own choice"),
        ],
        gravest: "error",
      }),
    ];
  });
}

/**
 * What the tip moves when the carrier leans until one rod lies against its front plate and the other against its back plate:
 * the rods' play between the plates over their distance, by how far the propeller's middle stands before the front plate.
 */
function tilt(
  duct: DuctParameters,
  fit: CarrierFit,
  motor: MotorParameters,
  { rods }: FrameParameters,
): Contribution {
  const ahead = motor.body.length + PROPELLER_AIR + (duct.propeller?.height ?? 0) / 2;
  const play = Math.max(0, fit.gap - thread(rods.thread).majorMin);
  return about(
    `tilt of the carrier on its two rods, ${numberText(ahead)} mm before the plate`,
    0,
    (play / fit.rodPitch) * ahead,
    1,
    "geometry; ISO 965-2, 6g",
  );
}
