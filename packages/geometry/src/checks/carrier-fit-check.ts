import type { CarrierFit } from "../fit/carrier-fit.js";
import type { DuctPipe } from "../fit/duct-pipe.js";
import type { DuctParameters, FrameParameters, MotorParameters } from "../frame/parameters.js";
import { measuredThickness } from "../plates/measured-thickness.js";
import { plainWasher, roundSpacer } from "../standards/index.js";
import type { Finding } from "./finding.js";
import { numberText } from "./number-text.js";

/** Air between rods, screw heads, spacers that must not touch, mm. Own choice. */
const PART_AIR = 0.5;

/** Air between the propeller's tip and the smallest bore, mm. Own choice; smaller gaps rub when the pipe is oval. */
const TIP_AIR = 1;

/** Air between the propeller's hub and whatever stands still, along the duct, mm. Own choice. */
export const PROPELLER_AIR = 2;

/** A ring narrower than this is too weak to carry spacer screws, mm. Own choice. */
const LEAST_WINDOW = 3;

/** Can this carrier, its motor and its rods live inside this pipe? Every finding names the numbers. */
export function checkCarrierFit(
  duct: DuctParameters,
  pipe: DuctPipe,
  fit: CarrierFit,
  motor: MotorParameters,
  parameters: FrameParameters,
): readonly Finding[] {
  return [
    ...boreFindings(duct, pipe, fit, motor),
    ...(duct.axis === "heave" ? [] : rodFindings(duct, pipe, fit)),
    ...spacerFindings(duct, pipe, fit, motor),
    ...propellerFindings(duct, pipe, fit, motor, parameters),
  ];
}

function boreFindings(
  duct: DuctParameters,
  pipe: DuctPipe,
  fit: CarrierFit,
  motor: MotorParameters,
): readonly Finding[] {
  const findings: Finding[] = [];
  const place = `${duct.id}.carrier`;
  const room = fit.windowRadius - fit.hubRadius;
  if (room < LEAST_WINDOW) {
    findings.push({
      id: "fit.motor-in-bore",
      severity: "error",
      place,
      message: `between the hub around the motor (${numberText(2 * fit.hubRadius)} mm) and the rim's inside (${numberText(2 * fit.windowRadius)} mm) only ${numberText(room)} mm are left for water; use a pipe with a bore of at least ${numberText(2 * (fit.hubRadius + LEAST_WINDOW) + pipe.boreMin - 2 * fit.windowRadius)} mm or a smaller motor`,
      measured: room,
      limit: LEAST_WINDOW,
      why: "the water flows between hub and rim",
      source: "geometry",
    });
  }
  if (motor.body.diameter >= pipe.boreMin) {
    findings.push({
      id: "fit.motor-body",
      severity: "error",
      place: `${duct.id}.motor`,
      message: `the motor's body of ${numberText(motor.body.diameter)} mm does not enter the smallest bore of ${numberText(pipe.boreMin)} mm; use a pipe with a bore of more than ${numberText(motor.body.diameter)} mm, or a motor of less than ${numberText(pipe.boreMin)} mm`,
      measured: motor.body.diameter,
      limit: pipe.boreMin,
      why: "the motor sits inside the pipe",
      source: pipe.source,
    });
  }
  return findings;
}

function rodFindings(duct: DuctParameters, pipe: DuctPipe, fit: CarrierFit): readonly Finding[] {
  const findings: Finding[] = [];
  const place = `${duct.id}.rods`;
  const outerEdge = fit.rodPitch / 2 + fit.rodRadius;
  const boreRadius = pipe.boreMin / 2;
  if (outerEdge > boreRadius - PART_AIR) {
    findings.push({
      id: "fit.rod-inside-bore",
      severity: "error",
      place,
      message: `rods ${numberText(fit.rodPitch)} mm apart reach ${numberText(outerEdge)} mm from the axis, outside the smallest bore's ${numberText(boreRadius)} mm; rodPitch may be at most ${numberText(fit.widestPitch)} mm`,
      measured: outerEdge,
      limit: boreRadius - PART_AIR,
      why: "a rod passes through the pipe and between the plates of the carrier",
      source: pipe.source,
    });
  } else if (fit.rodPitch > fit.widestPitch + 1e-9) {
    findings.push({
      id: "fit.spacer-inside-rim",
      severity: "error",
      place,
      message: `rods ${numberText(fit.rodPitch)} mm apart push the outer spacer screws to ${numberText(fit.rimRadius - fit.rodPitch / 2 - fit.pinOffset)} mm from the rim; they need ${numberText(fit.pinEdge)} mm, so rodPitch may be at most ${numberText(fit.widestPitch)} mm`,
      measured: fit.rodPitch,
      limit: fit.widestPitch,
      why: "a spacer screw stands on the far side of each rod, with 1.5 diameters of plate around it",
      source: "edge distance in plastics: common practice",
    });
  }
  const innerEdge = fit.rodPitch / 2 - fit.rodRadius;
  const least = 2 * (fit.motorHeadReach + PART_AIR + fit.rodRadius);
  if (innerEdge < fit.motorHeadReach + PART_AIR) {
    const cure =
      least <= fit.widestPitch
        ? `rodPitch must be at least ${numberText(least)} mm`
        : `rodPitch must be at least ${numberText(least)} mm, and this bore of ${numberText(pipe.boreMin)} mm takes ${fit.widestPitch > 0 ? `at most ${numberText(fit.widestPitch)} mm` : "no two rods"}: use a pipe with a bore of at least ${numberText(pipe.boreMin + Math.ceil(least) - fit.widestPitch)} mm, or a smaller motor`;
    findings.push({
      id: "fit.rod-clear-of-motor",
      severity: "error",
      place,
      message:
        fit.rodPitch > 0
          ? `rods ${numberText(fit.rodPitch)} mm apart pass ${numberText(innerEdge)} mm from the axis, but the heads of the motor's screws reach ${numberText(fit.motorHeadReach)} mm; ${cure}`
          : `two rods do not fit beside the heads of the motor's screws, which reach ${numberText(fit.motorHeadReach)} mm from the axis; ${cure}`,
      measured: innerEdge,
      limit: fit.motorHeadReach + PART_AIR,
      why: "screw heads and rods share the gap between the plates",
      source: "ISO 4762 knurled heads",
    });
  }
  return findings;
}

function spacerFindings(
  duct: DuctParameters,
  pipe: DuctPipe,
  fit: CarrierFit,
  motor: MotorParameters,
): readonly Finding[] {
  const findings: Finding[] = [];
  const place = `${duct.id}.carrier`;
  const reach = Math.max(...fit.pins.map((pin) => Math.hypot(pin.x, pin.y)));
  if (
    reach > fit.rimRadius - fit.pinEdge + 1e-9 &&
    (duct.axis === "heave" || fit.rodPitch <= fit.widestPitch)
  ) {
    findings.push({
      id: "fit.spacer-inside-rim",
      severity: "error",
      place,
      message: `a spacer screw stands ${numberText(fit.rimRadius - reach)} mm from the rim; it needs ${numberText(fit.pinEdge)} mm: use a pipe with a bore of at least ${numberText(pipe.boreMin + 2 * (fit.pinEdge - fit.rimRadius + reach))} mm, a smaller spacerScrew or a smaller motor`,
      measured: fit.rimRadius - reach,
      limit: fit.pinEdge,
      why: "1.5 diameters of plate around each screw",
      source: "edge distance in plastics: common practice",
    });
  }
  const nearest = Math.min(...fit.pins.map((pin) => Math.hypot(pin.x, pin.y)));
  const body = motor.body.diameter / 2 + plainWasher(duct.carrier.spacerScrew).outside / 2 + PART_AIR;
  if (nearest < body - 1e-9) {
    findings.push({
      id: "fit.spacer-clear-of-motor",
      severity: "error",
      place,
      message: `a spacer screw stands ${numberText(nearest)} mm from the axis; beside the motor's body of ${numberText(motor.body.diameter)} mm its washer needs ${numberText(body)} mm: make carrier.rodPitch ${numberText(2 * (body - nearest))} mm larger, or use a smaller motor`,
      measured: nearest,
      limit: body,
      why: "the motor lies against the plate between the heads of the spacer screws",
      source: "ISO 7089",
    });
  }
  if (fit.gap < fit.gapNeeded - 1e-9) {
    const lengths = roundSpacer(duct.carrier.spacerScrew).lengths;
    findings.push({
      id: "fit.carrier-gap",
      severity: "error",
      place,
      message: `the plates must stand ${numberText(fit.gapNeeded)} mm apart, but ${duct.carrier.spacerScrew} spacers with two washers reach ${numberText(fit.gap)} mm (longest spacer ${numberText(Math.max(...lengths))})`,
      measured: fit.gap,
      limit: fit.gapNeeded,
      why: "rods or screw heads lie between the plates",
      source: "spacer lengths: common practice",
    });
  }
  return findings;
}

function propellerFindings(
  duct: DuctParameters,
  pipe: DuctPipe,
  fit: CarrierFit,
  motor: MotorParameters,
  parameters: FrameParameters,
): readonly Finding[] {
  const { propeller } = duct;
  if (propeller === undefined) return [];
  const findings: Finding[] = [];
  const place = `${duct.id}.propeller`;
  const largest = pipe.boreMin - 2 * TIP_AIR;
  if (propeller.diameter > largest) {
    findings.push({
      id: "fit.propeller-in-bore",
      severity: "error",
      place,
      message: `a propeller of ${numberText(propeller.diameter)} mm rubs in the smallest bore of ${numberText(pipe.boreMin)} mm; it may have at most ${numberText(largest)} mm`,
      measured: propeller.diameter,
      limit: largest,
      why: "the tip needs 1 mm of water even where the pipe is oval",
      source: pipe.source,
    });
  }
  const carrier = measuredThickness(parameters.sheets.carrier);
  // From the rod plane, in the middle of the gap, or from the deck, on which the back plate lies.
  const behind = duct.axis === "heave" ? carrier + fit.gap : fit.gap / 2;
  const stack = behind + carrier + motor.body.length + PROPELLER_AIR + propeller.height;
  const room = duct.axis === "heave" ? duct.length : duct.length / 2 - Math.max(...duct.carrier.stations);
  if (stack > room) {
    findings.push({
      id: "fit.propeller-in-duct",
      severity: "warning",
      place,
      message: `carrier, motor and propeller reach ${numberText(stack)} mm from ${duct.axis === "heave" ? "the deck" : "the rods"}, the pipe ends after ${numberText(room)} mm; lengthen the duct by ${numberText(stack - room)} mm or set carrier.stations back`,
      measured: stack,
      limit: room,
      why: "a propeller outside its duct is a hazard for fingers and gives less thrust",
      source: "common practice",
    });
  }
  return findings;
}
