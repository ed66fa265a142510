import type { DuctParameters } from "../frame/parameters.js";
import type { CarrierFit } from "./carrier-fit.js";
import type { DuctPipe } from "./duct-pipe.js";

/** A duct with everything derived so far. Positions in vehicle axes, mm. */
export interface FittedDuct {
  readonly duct: DuctParameters;
  readonly pipe: DuctPipe;
  readonly fit: CarrierFit;
  /** Middle of the duct's length, on its axis. */
  readonly middle: { readonly x: number; readonly y: number; readonly z: number };
  /** Place of each rod plane along the duct's axis, in vehicle axes; empty for a heave duct, which has no rods. */
  readonly stations: readonly number[];
  /** False when the fit checks found an error: its carrier is then not drawn, the finding says what to change. */
  readonly sound: boolean;
}

/** A pair of rods across the vehicle, through both cheeks and every surge duct on their way. */
export interface RodRun {
  readonly x: number;
  /** Heights of the lower and the upper rod. */
  readonly z: readonly [number, number];
  readonly ducts: readonly FittedDuct[];
}

/** Ducts whose rods would lie closer than this share one pair of rods, mm. */
const SAME_ROD = 1e-6;

/** Groups surge ducts that stand side by side, so that one pair of rods locks all their carriers. */
export function rodRuns(ducts: readonly FittedDuct[]): readonly RodRun[] {
  const runs: { x: number; z: [number, number]; ducts: FittedDuct[] }[] = [];
  for (const fitted of ducts) {
    if (fitted.duct.axis !== "surge" || isTooNarrow(fitted)) continue;
    const z: [number, number] = [
      fitted.middle.z - fitted.fit.rodPitch / 2,
      fitted.middle.z + fitted.fit.rodPitch / 2,
    ];
    for (const x of fitted.stations) {
      const same = runs.find(
        (run) =>
          Math.abs(run.x - x) < SAME_ROD &&
          Math.abs(run.z[0] - z[0]) < SAME_ROD &&
          Math.abs(run.z[1] - z[1]) < SAME_ROD,
      );
      if (same === undefined) runs.push({ x, z, ducts: [fitted] });
      else same.ducts.push(fitted);
    }
  }
  return runs;
}

/**
 * Two rods that would share their hole are no rods: a finding about the carrier says how large the bore must be, and holes that
 * run into each other would only repeat it.
 */
function isTooNarrow({ fit }: FittedDuct): boolean {
  return fit.rodPitch < 4 * fit.rodRadius;
}

/** Carriers, and so motors, in one duct. */
export function carrierCount(fitted: FittedDuct): number {
  return fitted.duct.axis === "heave" ? 1 : fitted.stations.length;
}
