import { checkCarrierFit } from "../checks/carrier-fit-check.js";
import type { Finding } from "../checks/finding.js";
import { checkSpace } from "../checks/space-check.js";
import { reliefRadius } from "../features/corner-relief.js";
import { spreadTabs } from "../features/tab-joint.js";
import { fitCarrier } from "../fit/carrier-fit.js";
import { resolvePipe } from "../fit/duct-pipe.js";
import { layOut } from "../fit/layout.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import type { Plate } from "../plates/plate.js";
import { deriveAxes } from "./axes.js";
import { frameDimensions } from "./dimensions.js";
import { ductHardware, standingTies } from "./duct-hardware.js";
import { ductPlates } from "./duct-plates.js";
import type { Frame } from "./frame.js";
import { collectHardware, collectLengths } from "./hardware.js";
import type { DuctParameters, FrameParameters } from "./parameters.js";
import { runHardware } from "./run-hardware.js";
import { structurePlates } from "./structure-plates.js";

/**
 * From parameters to the whole machine: fits each carrier into its pipe, sets cheeks and deck around the ducts, draws every
 * plate and counts every screw.
 *
 * Parameters that cannot work never throw: they come back as findings of severity `error`, with the plates that could not
 * be drawn left out.
 */
export function deriveFrame(parameters: FrameParameters): Frame {
  const findings: Finding[] = [];
  const ducts = parameters.ducts.flatMap((duct) => fitDuct(duct, parameters, findings));
  const layout = layOut(parameters, ducts);
  const relief = reliefRadius(parameters.cutting);
  const half = parameters.deck.length / 2;
  const tabs = spreadTabs(-half, half, parameters.deck.tabsPerSide, parameters.deck.tabLength);
  const standing = ducts
    .filter((fitted) => fitted.duct.axis === "heave")
    .map((fitted) => ({ fitted, ties: standingTies(fitted, parameters) }));

  const plates: readonly Plate[] = [
    ...structurePlates(parameters, layout, tabs, relief, standing, ducts, findings),
    ...ductPlates(parameters, ducts, findings),
  ];
  const drawn = ductHardware(parameters, layout, ducts, standing, findings);
  const across = runHardware(parameters, layout);
  findings.push(...checkSpace(parameters, layout, ducts));
  return {
    parameters,
    plates,
    hardware: collectHardware([...drawn.hardware, ...across.hardware]),
    lengths: collectLengths([...drawn.lengths, ...across.lengths]),
    axes: deriveAxes(parameters, layout, ducts),
    dimensions: frameDimensions(parameters, layout, ducts, plates),
    findings,
  };
}

/** Resolves pipe, motor and carrier of one duct; an unknown name becomes a finding and the duct is left out. */
function fitDuct(
  duct: DuctParameters,
  parameters: FrameParameters,
  findings: Finding[],
): readonly FittedDuct[] {
  const motor = parameters.motors[duct.motor];
  try {
    if (motor === undefined) {
      throw new RangeError(
        `no motor "${duct.motor}"; known: ${Object.keys(parameters.motors).join(", ") || "none"}`,
      );
    }
    const pipe = resolvePipe(duct.pipe);
    const fit = fitCarrier(duct, pipe, motor, parameters.rods);
    const z =
      duct.at.z ??
      (duct.axis === "surge" ? pipe.outsideWorst / 2 + parameters.deck.ductGap : duct.length / 2);
    findings.push(...checkCarrierFit(duct, pipe, fit, motor, parameters));
    return [
      {
        duct,
        pipe,
        fit,
        middle: { x: duct.at.x, y: duct.at.y, z },
        rodX: duct.at.x + duct.carrier.station,
      },
    ];
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    findings.push({
      id: "frame.unknown-part",
      severity: "error",
      place: duct.id,
      message: error.message,
      why: "a duct cannot be drawn without its pipe, motor, rods and screws",
      source: "built-in tables; `catalog` lists them",
    });
    return [];
  }
}
