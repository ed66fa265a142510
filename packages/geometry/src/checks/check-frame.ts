import { fitMachine } from "../fit/machine.js";
import type { Frame } from "../frame/frame.js";
import type { CuttingParameters } from "../frame/parameters.js";
import type { Plate } from "../plates/plate.js";
import { rememberedBy } from "../remember.js";
import { checkAssembly } from "./assembly-check.js";
import { type CuttabilityLimits, checkCuttability } from "./cuttability.js";
import type { Finding, Severity } from "./finding.js";
import { regionFindings } from "./region-findings.js";
import { checkStrength } from "./strength.js";
import { checkToleranceStacks } from "./tolerance-stack.js";
import { checkTrim, knownBodies } from "./trim.js";

const SEVERITY_ORDER: readonly Severity[] = ["error", "warning", "note"];

/**
 * Every check of a derived frame: what derivation found, whether each plate is one sound region, and whether the shop's
 * method can cut it. Worst first; equal severities keep the order of the checks.
 */
export function checkFrame(frame: Frame, limits: CuttabilityLimits = {}): readonly Finding[] {
  // What derivation started from; what it found is among the frame's findings already.
  const machine = fitMachine(frame.parameters, []);
  const known = knownBodies(frame, machine);
  const findings = merged([
    ...frame.findings,
    ...checkAssembly(frame),
    ...checkToleranceStacks(machine, frame.plates),
    ...checkStrength(machine, frame.plates, known),
    ...checkTrim(frame, known),
    ...frame.plates.flatMap(faultFindings),
    ...frame.plates
      .filter((plate) => plate.made === "cut")
      .flatMap((plate) => cuttabilityOf(plate, frame.parameters.cutting, limits)),
  ]);
  return SEVERITY_ORDER.flatMap((severity) => findings.filter((finding) => finding.severity === severity));
}

/** Plates that are the same in every variation of a frame are looked at once. */
const PLATES = 500;

const faultFindings = rememberedBy(
  PLATES,
  ({ id, region, features }: Plate) =>
    JSON.stringify([id, region, features.map(({ contour, name }) => [contour, name])]),
  (plate: Plate) => regionFindings(plate),
);

/** The key holds all of the plate that the check looks at: not its places, marks and reasons. */
const cuttabilityOf = rememberedBy(
  PLATES,
  ({ id, region, features, sheet, made }: Plate, cutting: CuttingParameters, limits: CuttabilityLimits) =>
    JSON.stringify([
      id,
      region,
      features.map(({ contour, kind, name }) => [contour, kind, name]),
      sheet,
      made,
      cutting,
      limits,
    ]),
  (plate: Plate, cutting: CuttingParameters, limits: CuttabilityLimits): readonly Finding[] =>
    checkCuttability(plate, cutting, limits),
);

/** The same finding at several places is said once, with all its places. */
function merged(findings: readonly Finding[]): readonly Finding[] {
  const groups = new Map<string, { finding: Finding; places: string[] }>();
  for (const finding of findings) {
    const key = JSON.stringify([finding.id, finding.severity, finding.message]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { finding, places: [finding.place] });
    else if (!group.places.includes(finding.place)) group.places.push(finding.place);
  }
  return [...groups.values()].map(({ finding, places }) => ({ ...finding, place: places.join(", ") }));
}
