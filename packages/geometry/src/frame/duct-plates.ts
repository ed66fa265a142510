import type { Finding } from "../checks/finding.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import { carrierShape } from "../plates/carrier.js";
import { composePlate, type PlateDraft } from "../plates/compose.js";
import type { Plate, Seat } from "../plates/plate.js";
import { wrapDraft } from "../plates/wrap.js";
import { drawOrReport } from "./draw-or-report.js";
import type { FrameParameters } from "./parameters.js";

/** A plate of one duct before equal plates of several ducts are merged into one. */
interface Candidate {
  readonly duct: string;
  readonly draft: Omit<PlateDraft, "id" | "seats">;
  readonly seat: Seat;
}

/** Carriers and wraps of every duct; equal ones become one plate with several seats, so that a shop cuts one shape. */
export function ductPlates(
  parameters: FrameParameters,
  ducts: readonly FittedDuct[],
  findings: Finding[],
): readonly Plate[] {
  const candidates = ducts.flatMap((fitted) =>
    drawOrReport(findings, fitted.duct.id, () => [
      carrierCandidate("front", fitted, parameters),
      carrierCandidate("back", fitted, parameters),
      { duct: fitted.duct.id, ...wrapDraft(fitted, parameters) },
    ]),
  );
  const groups: Candidate[][] = [];
  for (const candidate of candidates) {
    const same = groups.find((group) => group[0] !== undefined && sameShape(group[0], candidate));
    if (same === undefined) groups.push([candidate]);
    else same.push(candidate);
  }
  return groups.flatMap((group) => {
    const [first] = group;
    if (first === undefined) return [];
    const { template } = first.draft;
    const shared = groups.filter((other) => other[0]?.draft.template === template).length === 1;
    return composePlate({
      ...first.draft,
      id: shared ? template : `${template}-${first.duct}`,
      name: shared ? first.draft.name : `${first.draft.name} for ${group.map((one) => one.duct).join(", ")}`,
      seats: group.map((one) => one.seat),
    });
  });
}

function carrierCandidate(
  side: "front" | "back",
  fitted: FittedDuct,
  parameters: FrameParameters,
): Candidate {
  const { duct, fit, pipe } = fitted;
  const motor = parameters.motors[duct.motor];
  if (motor === undefined) throw new RangeError(`no motor "${duct.motor}"`);
  const shape = carrierShape(side, fit, duct.carrier, motor, parameters.cutting, pipe.boreMin);
  return {
    duct: duct.id,
    draft: {
      name: `Carrier, ${side}`,
      template: `carrier-${side}`,
      sheet: parameters.sheets.carrier,
      outline: shape.outline,
      outlineWhy: `enters the smallest bore of ${pipe.designation} (${pipe.boreMin.toFixed(2)} mm) with ${duct.carrier.fitGap} mm air all round`,
      cuts: shape.cuts,
      mirrorable: true,
    },
    seat: carrierSeat(side, fitted, parameters),
  };
}

/** Surge: the plate's x points up, its normal forward. Heave: it lies on the deck. */
function carrierSeat(side: "front" | "back", fitted: FittedDuct, parameters: FrameParameters): Seat {
  const { middle, fit, rodX } = fitted;
  const thickness = parameters.sheets.carrier.thickness;
  if (fitted.duct.axis === "surge") {
    const x = side === "front" ? rodX + fit.gap / 2 : rodX - fit.gap / 2 - thickness;
    return { origin: [x, middle.y, middle.z], u: [0, 0, 1], v: [0, -1, 0] };
  }
  const z = side === "front" ? thickness + fit.gap : 0;
  return { origin: [middle.x, middle.y, z], u: [1, 0, 0], v: [0, 1, 0] };
}

function sameShape(a: Candidate, b: Candidate): boolean {
  return (
    a.draft.template === b.draft.template &&
    JSON.stringify([a.draft.outline, a.draft.cuts.map((cut) => cut.contour)]) ===
      JSON.stringify([b.draft.outline, b.draft.cuts.map((cut) => cut.contour)])
  );
}
