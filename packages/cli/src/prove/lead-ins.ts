import {
  type Contour,
  contourDistance,
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

/** What a cut along a lead-in must stay clear of. All lengths mm. */
export interface LeadInSurroundings {
  /** How far a cut along the stroke reaches beyond the cut lines' own side of it: nothing where they are compensated. */
  readonly beyondLines: number;
  /** Half the width of the cut. */
  readonly cutRadius: number;
  /** The stock's edge and keep-outs; none for a plate alone. */
  readonly around: readonly Contour[];
}

/**
 * There are as many lead-ins as were drawn, each touches one cut only, all but that end lies in waste material, and a cut
 * along it takes nothing from a plate, nor reaches the stock's edge or a keep-out.
 */
export function leadInFaults(
  file: string,
  leadIns: readonly ReadShape[],
  cuts: readonly FoundCut[],
  regions: readonly Region[],
  wanted: number,
  surroundings: LeadInSurroundings,
): Finding[] {
  const findings: Finding[] = [];
  if (leadIns.length !== wanted) {
    const message = `${leadIns.length} lead-in marks, expected ${wanted}`;
    findings.push(proofFinding("lead-in", file, message, leadIns.length, wanted));
  }
  for (const { vertices, place } of leadIns) {
    const where = `${file}, ${place}`;
    const points = pathSegments({ vertices, closed: false }).flatMap((piece) =>
      [0, 0.1, 0.25, 0.5, 0.75, 0.9, 1].map((t) => pointAt(piece, t)),
    );
    const sides = points.map((point) => regions.map((region) => locateInRegion(region, point, WRITTEN)));
    const inMaterial = sides.some((each) => each.includes("inside"));
    const touching = sides.filter((each) => each.includes("on")).length;
    if (inMaterial || touching !== 1) {
      const message = "a lead-in mark does not lie in the waste beside one cut";
      findings.push(proofFinding("lead-in", where, message));
      continue;
    }
    findings.push(...tooNear(where, vertices, cuts, surroundings));
  }
  return findings;
}

/** Distances of a stroke, exact all along it, from every line; from the one it ends on, that of its beginning. */
function tooNear(
  where: string,
  stroke: Contour,
  cuts: readonly FoundCut[],
  { beyondLines, cutRadius, around }: LeadInSurroundings,
): Finding[] {
  const gaps = cuts.map(({ contour }) => {
    const gap = contourDistance(contour, stroke);
    return gap > WRITTEN ? gap : Math.max(...stroke.map((end) => pointDistance(contour, end)));
  });
  const line = Math.min(...gaps);
  const edge = Math.min(...around.map((contour) => contourDistance(contour, stroke)));
  const findings: Finding[] = [];
  if (line < beyondLines - WRITTEN) {
    const message = `a cut along a lead-in mark takes from a plate: it is ${line.toFixed(3)} mm from its line, at least ${beyondLines.toFixed(3)} mm is needed`;
    findings.push(proofFinding("lead-in", where, message, line, beyondLines));
  }
  if (edge < cutRadius - WRITTEN) {
    const message = `a cut along a lead-in mark meets the stock's edge or a keep-out: it is ${edge.toFixed(3)} mm from it, at least ${cutRadius.toFixed(3)} mm is needed`;
    findings.push(proofFinding("lead-in", where, message, edge, cutRadius));
  }
  return findings;
}
