import { deriveFrame, type Finding, type FrameParameters } from "@keelcut/geometry";
import { checkStrength } from "../../../packages/geometry/src/checks/strength.js";
import { checkTrim, knownBodies } from "../../../packages/geometry/src/checks/trim.js";
import { fitMachine } from "../../../packages/geometry/src/fit/machine.js";

export function trimFindings(parameters: FrameParameters): readonly Finding[] {
  const frame = deriveFrame(parameters);
  return checkTrim(frame, knownBodies(frame, fitMachine(parameters, [])));
}

export function strengthFindings(parameters: FrameParameters): readonly Finding[] {
  const frame = deriveFrame(parameters);
  const machine = fitMachine(parameters, []);
  return checkStrength(machine, frame.plates, knownBodies(frame, machine));
}

export function found(findings: readonly Finding[], id: string): Finding {
  const finding = findings.find((one) => one.id === id);
  if (finding === undefined) throw new Error(`no ${id} among ${findings.map((one) => one.id).join(", ")}`);
  return finding;
}
