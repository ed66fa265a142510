import type { Finding } from "../checks/finding.js";
import { thicknessRange } from "../fit/layout.js";
import type { Machine, StandingDuct } from "../fit/machine.js";
import { carrierCount, type FittedDuct } from "../fit/rod-runs.js";
import { endNut } from "../hardware/end-nut.js";
import { pipeSolid, solidMass } from "../hardware/mass.js";
import { blindScrew, throughScrew } from "../hardware/screw-length.js";
import type { HardwareUse } from "../hardware/uses.js";
import type { Contribution } from "../plates/template.js";
import { cableTie } from "../standards/index.js";
import type { FrameParameters, MotorParameters } from "./parameters.js";

/** Thread engagement below which a metal thread is not fully used, in screw diameters (common practice: 1 d). */
const FULL_ENGAGEMENT = 1;

/** Engagement at the thickest plate below which a motor is not held at all, in screw diameters (common practice). */
const LEAST_ENGAGEMENT = 0.5;

/** Pipe, motors, screws, spacers and ties of every duct. */
export function ductParts(machine: Machine, findings: Finding[]): Contribution {
  const { parameters, ducts } = machine;
  return {
    hardware: [
      ...ducts.flatMap((fitted) => {
        const motor = parameters.motors[fitted.duct.motor];
        if (motor === undefined) return [];
        const carriers = carrierCount(fitted);
        return [
          ...motorHardware(fitted, motor, parameters, findings),
          ...spacerHardware(fitted, machine, findings),
        ].map((use) => ({ ...use, count: use.count * carriers }));
      }),
      ...machine.standing.flatMap((duct) => tieHardware(duct, parameters, findings)),
    ],
    lengths: ducts.map((fitted) => ({
      item: `pipe ${fitted.pipe.designation}`,
      kind: "pipe",
      length: fitted.duct.length,
      place: fitted.duct.id,
      count: 1,
      mass: solidMass(pipeSolid(fitted.pipe, fitted.duct.pipe.standard, fitted.duct.length)),
      why: "the duct",
    })),
  };
}

function motorHardware(
  fitted: FittedDuct,
  motor: MotorParameters,
  parameters: FrameParameters,
  findings: Finding[],
): readonly HardwareUse[] {
  const { duct, fit } = fitted;
  const place = `${duct.id}.motor`;
  const parts: HardwareUse[] = [
    {
      item: `motor ${duct.motor}`,
      kind: "motor",
      place,
      count: 1,
      why: "drives the duct",
      ...(motor.mass !== undefined && { mass: motor.mass }),
    },
  ];
  if (duct.propeller !== undefined) {
    parts.push({
      item: `propeller ${duct.propeller.diameter} mm`,
      kind: "propeller",
      place,
      count: 1,
      why: "on the motor's shaft",
      // A motor's mass is stated with its propeller.
      ...(motor.mass !== undefined && { mass: 0 }),
    });
  }
  const range = thicknessRange(parameters.sheets.carrier);
  const choice = blindScrew(motor.screw, range, motor.threadDepth);
  if (!choice.ok) {
    findings.push({
      id: "fit.motor-screw",
      severity: "error",
      place,
      message: `no standard ${motor.screw} screw holds the motor: at most ${choice.longestAllowed.toFixed(2)} mm may be used (plate ${range.min.toFixed(2)} + thread ${motor.threadDepth}), and it must be longer than ${range.max.toFixed(2)} mm`,
      measured: choice.shortest,
      limit: choice.longestAllowed,
      why: "a longer screw runs into the motor's windings, a shorter one does not reach it",
      source: "ISO 4762 lengths; common practice",
    });
    return parts;
  }
  const d = Number(motor.screw.slice(1));
  const nominal = choice.length - range.nominal;
  if (nominal < FULL_ENGAGEMENT * d - 1e-9) {
    findings.push({
      id: "fit.motor-screw-engagement",
      severity: choice.engaged.min < LEAST_ENGAGEMENT * d ? "error" : "warning",
      place,
      message: `${motor.screw}x${choice.length} reaches ${nominal.toFixed(2)} mm into the motor (${choice.engaged.min.toFixed(2)} to ${choice.engaged.max.toFixed(2)} over the sheet's tolerance); ${(FULL_ENGAGEMENT * d).toFixed(1)} mm would use the thread fully, below ${(LEAST_ENGAGEMENT * d).toFixed(1)} mm it strips: ${parameters.sheets.carrier.measured === undefined ? "measure the sheet and give sheets.carrier.measured, or " : ""}choose another thickness`,
      measured: nominal,
      limit: FULL_ENGAGEMENT * d,
      why: "engagement of one diameter uses a metal thread fully",
      source: "common practice",
    });
  }
  parts.push({
    item: `screw ISO 4762 ${motor.screw}x${choice.length}`,
    kind: "screw",
    place,
    count: fit.motorCentres.length,
    why: `plate ${range.min.toFixed(2)} to ${range.max.toFixed(2)}, then ${choice.engaged.min.toFixed(2)} to ${choice.engaged.max.toFixed(2)} of ${motor.threadDepth} mm thread`,
  });
  return parts;
}

function spacerHardware(
  fitted: FittedDuct,
  { parameters, layout }: Machine,
  findings: Finding[],
): readonly HardwareUse[] {
  const { duct, fit } = fitted;
  const place = `${duct.id}.carrier`;
  const screw = duct.carrier.spacerScrew;
  const deck = duct.axis === "heave" ? layout.structure.max : 0;
  const clamped = 2 * thicknessRange(parameters.sheets.carrier).max + fit.gap + deck;
  const choice = throughScrew(screw, clamped, parameters.nuts);
  const count = fit.pins.length;
  const parts: HardwareUse[] = [
    {
      item: `spacer ${screw}x${fit.spacerLength}`,
      kind: "spacer",
      place,
      count,
      why: `keeps the plates ${fit.gap.toFixed(1)} mm apart (needed ${fit.gapNeeded.toFixed(1)})`,
    },
    {
      item: endNut(screw, parameters.nuts).item,
      kind: "nut",
      place,
      count,
      why:
        parameters.nuts === "lock"
          ? "on each spacer screw; its plastic ring holds it when the motor shakes"
          : "on each spacer screw; lock it, the motor shakes",
    },
    {
      item: `washer ISO 7089 ${screw}`,
      kind: "washer",
      place,
      count: count * (2 + fit.spacerWashers),
      why:
        fit.spacerWashers === 0
          ? "under head and nut"
          : `under head and nut, and ${fit.spacerWashers} on each spacer`,
    },
  ];
  if (!choice.ok) {
    findings.push({
      id: "fit.spacer-screw",
      severity: "error",
      place,
      message: `the spacer screws need ${choice.needed.toFixed(1)} mm, but ${screw} is standard only up to ${choice.longest} mm; use a larger spacerScrew or thinner plates`,
      measured: choice.needed,
      limit: choice.longest,
      why: "the screw must pass plates, spacer, washers and nut, with two threads to spare",
      source: "ISO 4762 lengths by size",
    });
    return parts;
  }
  return [
    {
      item: `screw ISO 4762 ${screw}x${choice.length}`,
      kind: "screw",
      place,
      count,
      why: `clamped ${clamped.toFixed(2)}, washers, nut and two threads need ${choice.needed.toFixed(1)} mm`,
    },
    ...parts,
  ];
}

function tieHardware(
  standing: StandingDuct,
  parameters: FrameParameters,
  findings: Finding[],
): readonly HardwareUse[] {
  const { width, places } = parameters.ties;
  const { lengths } = cableTie(width);
  const needed = standing.ties.tieLengthNeeded;
  const place = `${standing.fitted.duct.id}.ties`;
  const length = lengths.find((candidate) => candidate >= needed);
  if (length === undefined) {
    findings.push({
      id: "fit.tie-length",
      severity: "error",
      place,
      message: `a tie must be ${needed.toFixed(0)} mm long, but ${width} mm ties are sold up to ${Math.max(...lengths)} mm; use wider ties if such are longer (keelcut catalog cable-ties), or a smaller pipe`,
      measured: needed,
      limit: Math.max(...lengths),
      why: "the tie goes up through the deck, behind the pipe's wall and down again",
      source: "common practice",
    });
    return [];
  }
  return [
    {
      item: `tie ${width}x${length}`,
      kind: "tie",
      place,
      count: places,
      why: `through deck and pipe wall needs ${needed.toFixed(0)} mm`,
    },
  ];
}
