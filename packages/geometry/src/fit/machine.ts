import { checkCarrierFit } from "../checks/carrier-fit-check.js";
import type { Finding } from "../checks/finding.js";
import type { Contour } from "../contour/contour.js";
import { reliefRadius } from "../features/corner-relief.js";
import { spreadTabs, type TabRow } from "../features/tab-joint.js";
import type { TiePlaces } from "../features/tie-place.js";
import type { DuctParameters, FrameParameters } from "../frame/parameters.js";
import { carrierWindows } from "../plates/carrier.js";
import { fitCarrier } from "./carrier-fit.js";
import { resolvePipe } from "./duct-pipe.js";
import { type Layout, layOut } from "./layout.js";
import type { FittedDuct } from "./rod-runs.js";
import { standingTies } from "./standing-ties.js";

/** A heave duct on the deck with its ties. */
export interface StandingDuct {
  readonly fitted: FittedDuct;
  readonly ties: TiePlaces;
}

/** Everything that is settled before a plate is drawn: what every template works from. */
export interface Machine {
  readonly parameters: FrameParameters;
  readonly ducts: readonly FittedDuct[];
  readonly layout: Layout;
  /** Tabs of the deck along its sides; the cheeks have the slots. */
  readonly deckTabs: TabRow;
  readonly standing: readonly StandingDuct[];
  /** Radius of the relief in square inside corners; 0 when none is needed. */
  readonly relief: number;
  /** Windows of a duct's carrier, centred on its axis. */
  readonly windowsOf: (fitted: FittedDuct) => readonly Contour[];
}

/**
 * Fits each carrier into its pipe and sets cheeks and deck around the ducts. A duct with an unknown pipe, motor or screw is
 * left out and becomes a finding.
 */
export function fitMachine(parameters: FrameParameters, findings: Finding[]): Machine {
  const ducts = parameters.ducts.flatMap((duct) => fitDuct(duct, parameters, findings));
  const half = parameters.deck.length / 2;
  return {
    parameters,
    ducts,
    layout: layOut(parameters, ducts),
    deckTabs: spreadTabs(-half, half, parameters.deck.tabsPerSide, parameters.deck.tabLength),
    standing: ducts
      .filter((fitted) => fitted.duct.axis === "heave" && fitted.sound)
      .map((fitted) => ({ fitted, ties: standingTies(fitted, parameters) })),
    relief: reliefRadius(parameters.cutting),
    windowsOf: ({ fit, duct }) => carrierWindows(fit, duct.carrier, parameters.cutting),
  };
}

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
    const found = checkCarrierFit(duct, pipe, fit, motor, parameters);
    findings.push(...found);
    return [
      {
        duct,
        pipe,
        fit,
        middle: {
          x: duct.at.x,
          y: duct.at.y,
          z: duct.at.z ?? restingHeight(duct, pipe.outsideWorst, parameters),
        },
        stations: rodPlanes(duct),
        sound: found.every((finding) => finding.severity !== "error"),
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

function rodPlanes(duct: DuctParameters): readonly number[] {
  if (duct.axis === "heave") return [];
  const middle = duct.axis === "surge" ? duct.at.x : duct.at.y;
  return duct.carrier.stations.map((station) => middle + station);
}

/** A surge duct hangs above the deck, a sway duct lies on it under its ties, a heave duct stands on it. */
function restingHeight(duct: DuctParameters, outside: number, parameters: FrameParameters): number {
  switch (duct.axis) {
    case "surge":
      return outside / 2 + parameters.deck.ductGap;
    case "sway":
      return outside / 2;
    case "heave":
      return duct.length / 2;
  }
}
