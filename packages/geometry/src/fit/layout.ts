import type { FrameParameters, StructuralSheet } from "../frame/parameters.js";
import { hexNut, plainWasher, sheetMaterial } from "../standards/index.js";
import { type FittedDuct, type RodRun, rodRuns } from "./rod-runs.js";

/** Room to turn a nut by its edge, between it and the next nut on the rod, mm. Own choice. */
export const NUT_ROOM = 2;

/** Air between an outermost heave duct and a cheek when no surge duct sets the width, mm. Own choice. */
const HEAVE_SIDE_AIR = 15;

/** Air between the end of a sway duct and the cheek whose opening it looks through, mm. Own choice. */
const SWAY_END_AIR = 2;

/** Air between a pipe's largest outside and a bulkhead's saddle all round, mm. Own choice. */
export const SADDLE_AIR = 0.5;

/** Material a bulkhead keeps around its saddles and along its edges, mm. Own choice. */
export const SADDLE_WEB = 14;

/** Where the large parts stand. Vehicle axes, mm. */
export interface Layout {
  /** Distance between the inner faces of the cheeks. */
  readonly innerWidth: number;
  /** Least inner width at which nuts fit between every pipe and cheek. */
  readonly leastWidth: number;
  readonly runs: readonly RodRun[];
  /** Top of the highest duct. */
  readonly ductTop: number;
  /** Thickness range of the structural sheet. */
  readonly structure: { readonly min: number; readonly nominal: number; readonly max: number };
}

/** Sets the cheeks as close to the ducts as the nuts between them allow, or where the designer wants them. */
export function layOut(parameters: FrameParameters, ducts: readonly FittedDuct[]): Layout {
  const needed = Math.max(0, ...ducts.map((fitted) => halfWidthFor(fitted, parameters)));
  const leastWidth = 2 * Math.ceil(needed);
  return {
    innerWidth: parameters.deck.width ?? leastWidth,
    leastWidth,
    runs: rodRuns(ducts),
    ductTop: Math.max(
      0,
      ...ducts.map((fitted) =>
        fitted.duct.axis === "heave"
          ? fitted.middle.z + fitted.duct.length / 2
          : fitted.middle.z + fitted.pipe.outsideWorst / 2,
      ),
    ),
    structure: thicknessRange(parameters.sheets.structure),
  };
}

/** Thickness a sheet may have: as measured, or the standard's tolerance around nominal. */
export function thicknessRange(sheet: StructuralSheet): { min: number; nominal: number; max: number } {
  if (sheet.measured !== undefined) {
    return { min: sheet.measured, nominal: sheet.measured, max: sheet.measured };
  }
  const tolerance = sheetMaterial(sheet.material).thicknessTolerance(sheet.thickness);
  return { min: sheet.thickness - tolerance, nominal: sheet.thickness, max: sheet.thickness + tolerance };
}

/**
 * Distance from the duct's axis to the face of a nut screwed against the pipe, measured along the rod, mm.
 * The nut seats on the curved wall at its corner nearest the duct's axis.
 */
export function pipeNutSeat(fitted: FittedDuct, parameters: FrameParameters): number {
  const outside = fitted.pipe.outsideWorst / 2;
  const corner = hexNut(parameters.rods.thread).cornersMax / 2;
  const near = Math.max(0, fitted.fit.rodPitch / 2 - corner);
  return Math.sqrt(Math.max(0, outside ** 2 - near ** 2));
}

/** Half the inner width a duct needs: out to the pipe nut's far face, then washer and nut of the cheek, and room for fingers. */
function halfWidthFor(fitted: FittedDuct, parameters: FrameParameters): number {
  const outside = fitted.pipe.outsideWorst / 2;
  const beside = Math.abs(fitted.middle.y);
  if (fitted.duct.axis === "heave") return beside + outside + HEAVE_SIDE_AIR;
  if (fitted.duct.axis === "sway") return beside + fitted.duct.length / 2 + SWAY_END_AIR;
  const nut = hexNut(parameters.rods.thread);
  const washer = plainWasher(parameters.rods.thread);
  const stack =
    pipeNutSeat(fitted, parameters) + nut.heightMax + NUT_ROOM + nut.heightMax + washer.thicknessMax;
  const saddle = (parameters.bulkheads ?? []).length === 0 ? 0 : outside + SADDLE_AIR + SADDLE_WEB;
  return beside + Math.max(stack, outside, saddle);
}
