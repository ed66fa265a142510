import type { DuctPipe } from "../../fit/duct-pipe.js";
import type { CuttingParameters } from "../../frame/parameters.js";
import { usualAccuracy } from "../../standards/cutting/accuracy.js";
import { capScrew, thread } from "../../standards/index.js";
import type { Contribution } from "../finding.js";
import { about, between } from "./stack.js";

/** Deviation of one cut edge from its drawn place, mm, and who says so. */
export function cutEdge(cutting: CuttingParameters): { readonly deviation: number; readonly source: string } {
  return cutting.accuracy === undefined
    ? { deviation: usualAccuracy, source: "accuracy of the cut: common practice" }
    : { deviation: cutting.accuracy, source: "accuracy of the cut: stated" };
}

/** From the duct's axis to the wall's inside, mm. */
export function boreRadius(pipe: DuctPipe): readonly Contribution[] {
  const { source } = pipe;
  return [
    between("half the pipe's outside diameter", pipe.outsideMin / 2, pipe.outsideMax / 2, 1, source),
    between("pipe wall", pipe.wallMin, pipe.wallMax, -1, source),
    about("out of round", 0, pipe.ovality / 4, 1, source),
  ];
}

/** A rod or screw of class 6g, half its diameter, mm. */
export function rodRadius(threadName: string, times: number): Contribution {
  const { majorMin, majorMax } = thread(threadName);
  return between(`half the ${threadName} thread`, majorMin / 2, majorMax / 2, times, "ISO 965-2, 6g");
}

/** Half a cap screw's knurled head, mm. */
export function headRadius(screw: string, times: number): Contribution {
  const { headDiameterMin, headDiameterMax } = capScrew(screw);
  return between(`half the ${screw} head`, headDiameterMin / 2, headDiameterMax / 2, times, "ISO 4762");
}
