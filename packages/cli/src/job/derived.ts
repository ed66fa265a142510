import { checkFrame, deriveFrame, type Finding, type Frame } from "@keelcut/geometry";
import { given } from "../input/given.js";
import type { FrameInput } from "../input/read-frame.js";
import { strayMarks } from "../output/stray-marks.js";
import { cuttingFindings } from "./cutting-findings.js";

/** A frame with everything the checks say about it. */
export interface Derived {
  readonly frame: Frame;
  readonly findings: readonly Finding[];
}

/** Derives the frame and checks it against itself and against what the shop can cut. */
export function derived(input: FrameInput): Derived {
  const frame = deriveFrame(input.parameters);
  return { frame, findings: findingsOf(frame, input) };
}

/** Everything the checks say about a derived frame. */
export function findingsOf(frame: Frame, input: FrameInput): readonly Finding[] {
  // What is not drawn strays nowhere.
  const stray = input.shop?.files.marks === false ? [] : frame.plates.flatMap(strayMarks);
  const drills = input.shop?.machine.drills.map(({ diameter }) => diameter);
  return [
    ...cuttingFindings(input),
    ...stray,
    ...checkFrame(frame, given({ ...input.shop?.limits, drills })),
  ];
}

/** True when something was found that makes the plates useless. */
export function hasErrors(findings: readonly Finding[]): boolean {
  return findings.some((finding) => finding.severity === "error");
}
