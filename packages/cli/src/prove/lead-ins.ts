import {
  type Finding,
  locateInRegion,
  pathSegments,
  pointAt,
  pointDistance,
  type Region,
} from "@keelcut/geometry";
import type { ReadShape } from "../input/import/read-file.js";
import { WRITTEN } from "./compare-contours.js";
import type { FoundCut } from "./match-cuts.js";
import { proofFinding } from "./prove-finding.js";

export interface SortedMarks {
  readonly marks: readonly ReadShape[];
  readonly leadIns: readonly ReadShape[];
}

/** Tells lead-ins, straight strokes that end on a cut line, from the marks on plates. */
export function sortMarks(
  shapes: readonly ReadShape[],
  cuts: readonly FoundCut[],
  wanted: number,
): SortedMarks {
  if (wanted === 0) return { marks: shapes, leadIns: [] };
  const leads = shapes.filter((shape) => isLeadIn(shape, cuts));
  return { marks: shapes.filter((shape) => !leads.includes(shape)), leadIns: leads };
}

function isLeadIn({ vertices, closed }: ReadShape, cuts: readonly FoundCut[]): boolean {
  if (closed || vertices.length !== 2) return false;
  return cuts.some(({ contour, box }) =>
    vertices.some(
      ({ x, y }) =>
        x >= box.minX - WRITTEN &&
        x <= box.maxX + WRITTEN &&
        y >= box.minY - WRITTEN &&
        y <= box.maxY + WRITTEN &&
        pointDistance(contour, { x, y }) <= WRITTEN,
    ),
  );
}

/** There are as many lead-ins as were drawn, each touches one cut only, and all but that end lies in waste material. */
export function leadInFaults(
  file: string,
  leadIns: readonly ReadShape[],
  regions: readonly Region[],
  wanted: number,
): Finding[] {
  const findings: Finding[] = [];
  if (leadIns.length !== wanted) {
    const message = `${leadIns.length} lead-in marks, expected ${wanted}`;
    findings.push(proofFinding("lead-in", file, message, leadIns.length, wanted));
  }
  for (const { vertices, place } of leadIns) {
    const points = pathSegments({ vertices, closed: false }).flatMap((piece) =>
      [0, 0.1, 0.25, 0.5, 0.75, 0.9, 1].map((t) => pointAt(piece, t)),
    );
    const sides = points.map((point) => regions.map((region) => locateInRegion(region, point, WRITTEN)));
    const inMaterial = sides.some((each) => each.includes("inside"));
    const touching = sides.filter((each) => each.includes("on")).length;
    if (!inMaterial && touching === 1) continue;
    const message = "a lead-in mark does not lie in the waste beside one cut";
    findings.push(proofFinding("lead-in", `${file}, ${place}`, message));
  }
  return findings;
}
