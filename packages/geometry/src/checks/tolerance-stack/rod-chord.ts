import { boltReach } from "../../features/bolt-pattern.js";
import type { Machine } from "../../fit/machine.js";
import { thread } from "../../standards/index.js";
import type { Contribution, Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { boreRadius, cutEdge, headRadius, rodRadius } from "./sources.js";
import { about, jointFinding } from "./stack.js";

/** Do the rods, with all deviations, pass inside the bore and outside the heads of the motor's screws? */
export function rodChord({ ducts, parameters }: Machine): readonly Finding[] {
  const edge = cutEdge(parameters.cutting);
  const rod = parameters.rods.thread;
  return ducts.flatMap(({ duct, pipe, fit }): readonly Finding[] => {
    const motor = parameters.motors[duct.motor];
    if (duct.axis === "heave" || motor === undefined) return [];
    const halfPitch = (times: number): Contribution =>
      about("half the rod pitch", fit.rodPitch / 2, edge.deviation, times, edge.source);
    const play = (fit.motorHole - thread(motor.screw).majorMin) / 2;
    return [
      jointFinding({
        id: "fit.rod-chord-inside-bore",
        place: `${duct.id}.rods`,
        what: `rods ${numberText(fit.rodPitch)} mm apart pass inside the wall of ${pipe.designation}, from it`,
        cure: "make carrier.rodPitch smaller or measure the pipe",
        why: "a rod passes through the pipe and between the plates of the carrier",
        contributions: [...boreRadius(pipe), halfPitch(-1), rodRadius(rod, -1)],
        gravest: "error",
      }),
      jointFinding({
        id: "fit.rod-chord-clear-of-motor",
        place: `${duct.id}.rods`,
        what: `rods ${numberText(fit.rodPitch)} mm apart pass outside the motor's screws, from their heads`,
        cure: "make carrier.rodPitch larger",
        why: "screw heads and rods share the gap between the plates",
        contributions: [
          halfPitch(1),
          rodRadius(rod, -1),
          about("motor screw from the axis", boltReach(motor.pattern), edge.deviation, -1, edge.source),
          about("play of the motor screw in its hole", 0, play, 1, "ISO 273 medium; ISO 965-2, 6g"),
          headRadius(motor.screw, -1),
        ],
        gravest: "error",
      }),
    ];
  });
}
