import type { Finding, Point } from "@keelcut/geometry";

/** An error of the proof: what is off, in which file, where. */
export function proofFinding(
  what: string,
  place: string,
  message: string,
  measured?: number,
  limit?: number,
): Finding {
  return {
    id: `prove.${what}`,
    severity: "error",
    place,
    message,
    ...(measured === undefined ? {} : { measured }),
    ...(limit === undefined ? {} : { limit }),
    why: REASONS[what] ?? "the file differs from the job's record",
    source: SOURCE,
  };
}

const SOURCE = "common requirements of cutting shops for files; the job's record";

const REASONS: Readonly<Record<string, string>> = {
  unit: "a file without its unit, or in another, opens at the wrong size",
  scale: "plates come out at the wrong size",
  open: "an open contour is not cut through, or not at all",
  double: "a line drawn twice is cut twice",
  crossing: "lines that cross or touch cut into plates",
  "not-arcs": "many short lines instead of an arc leave facets and slow the machine",
  clearance: "plates too close are cut into, or move while they are cut",
  margin: "a plate at the edge is not whole, and the sheet cannot be held",
  "half-kerf": "plates come out too large or too small",
  bridge: "a plate with too few bridges comes loose; a line interrupted elsewhere is not cut through",
  direction: "an open line has no inside: a cutter on its wrong side makes the plate too small",
  order: "a plate is loose before its openings are cut",
};

/** `x 12.500, y 3.000` */
export function shownPoint(point: Point): string {
  return `x ${point.x.toFixed(3)}, y ${point.y.toFixed(3)}`;
}
