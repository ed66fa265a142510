import type { Machine } from "../fit/machine.js";
import type { Plate } from "../plates/plate.js";
import type { Contribution, Finding } from "./finding.js";
import { numberText } from "./number-text.js";
import { carrierInBore } from "./tolerance-stack/carrier-in-bore.js";
import { measuredValues } from "./tolerance-stack/measured-values.js";
import { pipeSeries } from "./tolerance-stack/pipe-series.js";
import { propellerInBore } from "./tolerance-stack/propeller-in-bore.js";
import { rodChord } from "./tolerance-stack/rod-chord.js";
import { rodInCarrier } from "./tolerance-stack/rod-in-carrier.js";
import { rodThroughPipe } from "./tolerance-stack/rod-through-pipe.js";
import { screwLength } from "./tolerance-stack/screw-length.js";
import { addUp } from "./tolerance-stack/stack.js";
import { tabInSlot } from "./tolerance-stack/tab-in-slot.js";
import { tieAroundPipe } from "./tolerance-stack/tie-around-pipe.js";
import { toolAccess } from "./tolerance-stack/tool-access.js";

/**
 * Every joint of the frame with all its tolerances at once: worst case and root-sum-square, with each size and its source.
 * Ducts that cannot work at nominal size are left to the fit checks, which say by how much.
 */
export function checkToleranceStacks(machine: Machine, plates: readonly Plate[]): readonly Finding[] {
  const sound: Machine = { ...machine, ducts: machine.ducts.filter((fitted) => fitted.sound) };
  return roomyTogether([
    ...measuredValues(machine),
    ...pipeSeries(machine),
    ...carrierInBore(sound),
    ...rodInCarrier(sound),
    ...rodChord(sound),
    ...rodThroughPipe(sound),
    ...propellerInBore(sound),
    ...tabInSlot(sound),
    ...tieAroundPipe(sound),
    ...toolAccess(sound, plates),
    ...screwLength(sound),
  ]);
}

/** A joint that keeps more than this in its worst case needs nobody's eye, mm. Own choice. */
const ROOMY = 1;

/** Joints with room to spare become one note, so that the tight ones stand out. */
function roomyTogether(findings: readonly Finding[]): readonly Finding[] {
  const roomy = findings.filter(isRoomy);
  if (roomy.length === 0) return findings;
  const joints = [...new Map(roomy.map((finding) => [finding.message, finding])).values()];
  const tightest = joints.reduce(
    (least, { measured, limit }) => Math.min(least, measured - limit),
    Number.POSITIVE_INFINITY,
  );
  return [
    ...findings.filter((finding) => !isRoomy(finding)),
    {
      id: "fit.roomy-joints",
      severity: "note",
      place: [...new Set(roomy.map(({ place }) => place))].join(", "),
      message: `${joints.length} more joints fit with at least ${numberText(tightest)} mm to spare in the worst case: ${joints.map((joint) => `${nameOf(joint)} ${numberText(joint.measured - joint.limit)}`).join(", ")}`,
      measured: tightest,
      limit: 0,
      why: "their tolerances do not matter",
      source: [...new Set(joints.flatMap(({ source }) => source.split("; ")))].join("; "),
      contributions: joints.map(summary),
    },
  ];
}

interface Roomy extends Finding {
  readonly measured: number;
  readonly limit: number;
  readonly contributions: readonly Contribution[];
}

function isRoomy(finding: Finding): finding is Roomy {
  const { severity, measured, limit, contributions } = finding;
  return (
    severity === "note" &&
    contributions !== undefined &&
    measured !== undefined &&
    limit !== undefined &&
    measured - limit > ROOMY
  );
}

/** A whole joint in one line: what it keeps beyond what it needs. */
function summary(joint: Roomy): Contribution {
  const { limit, contributions, source } = joint;
  const { nominal, worst, most } = addUp(contributions);
  return {
    name: nameOf(joint),
    nominal: nominal - limit,
    plus: most - nominal,
    minus: nominal - worst,
    source,
  };
}

function nameOf({ id }: Finding): string {
  return id.replace("fit.", "").replaceAll("-", " ");
}
