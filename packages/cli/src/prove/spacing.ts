import {
  bounds,
  type Contour,
  contourDistance,
  contourGap,
  type Finding,
  locate,
  locateInRegion,
  type Region,
  regionGap,
} from "@keelcut/geometry";
import { cutOffset, type Expectations, type ExpectedSheet } from "./expectations.js";
import { proofFinding, shownPoint } from "./prove-finding.js";

export interface Spacing {
  /** Least distance between the cut lines of two plates, mm; infinite with one plate. */
  readonly leastGap: number;
  /** Least distance between a cut line and the stock's outline, mm; infinite without plates. */
  readonly leastMargin: number;
  readonly findings: readonly Finding[];
}

/** Rounding of two lines that face each other, mm. */
const SLACK = 4e-6;

/**
 * Distances on a sheet, between the regions rebuilt from its file. Compensated lines have moved half a kerf towards
 * each other and towards the edge.
 */
export function spacing(
  file: string,
  regions: readonly Region[],
  sheet: ExpectedSheet,
  expectations: Expectations,
): Spacing {
  const half = cutOffset(expectations.size);
  const gapLimit = expectations.clearance - 2 * half;
  const marginLimit = expectations.edgeMargin - half;
  const keepOutLimit = expectations.clearance - half;
  const findings: Finding[] = [];
  let leastGap = Number.POSITIVE_INFINITY;
  let leastMargin = Number.POSITIVE_INFINITY;
  regions.forEach((region, index) => {
    for (const other of regions.slice(index + 1)) {
      if (boxGap(region, other) > Math.min(leastGap, Math.max(gapLimit, 0) + 50)) continue;
      const gap = regionGap(region, other);
      leastGap = Math.min(leastGap, gap.distance);
      if (gap.distance >= gapLimit - SLACK) continue;
      const message = `two plates are ${gap.distance.toFixed(4)} mm apart at ${shownPoint(gap.from)}, at least ${gapLimit.toFixed(4)} mm is needed`;
      findings.push(proofFinding("clearance", file, message, gap.distance, gapLimit));
    }
    const edge = edgeDistance(region.outer, sheet.stockOutline);
    leastMargin = Math.min(leastMargin, edge.distance);
    if (edge.distance < marginLimit - SLACK) {
      const message = `a plate is ${edge.distance.toFixed(4)} mm inside the stock's edge at ${shownPoint(edge.at)}, at least ${marginLimit.toFixed(4)} mm is needed`;
      findings.push(proofFinding("margin", file, message, edge.distance, marginLimit));
    }
    for (const keepOut of sheet.keepOuts)
      findings.push(...keepOutFindings(file, region, keepOut, keepOutLimit));
  });
  return { leastGap, leastMargin, findings };
}

/** Negative when the contour leaves the outline. */
function edgeDistance(
  contour: Contour,
  outline: Contour,
): { distance: number; at: { x: number; y: number } } {
  const gap = contourGap(contour, outline);
  const out = contour.find((vertex) => locate(outline, vertex) === "outside");
  return out === undefined
    ? { distance: gap.distance, at: gap.from }
    : { distance: -gap.distance - SLACK, at: out };
}

function keepOutFindings(file: string, region: Region, keepOut: Contour, limit: number): Finding[] {
  const corner = keepOut[0];
  const start = region.outer[0];
  // A keep-out may lie in an opening of the plate.
  const apart = Math.min(
    ...[region.outer, ...region.openings].map((contour) => contourDistance(contour, keepOut)),
  );
  const inside =
    (corner !== undefined && locateInRegion(region, corner) === "inside") ||
    (start !== undefined && locate(keepOut, start) === "inside");
  if (!inside && apart >= limit - SLACK) return [];
  const message = `a plate is ${inside ? "over" : `${apart.toFixed(4)} mm from`} a keep-out, at least ${limit.toFixed(4)} mm is needed`;
  return [proofFinding("keep-out", file, message, inside ? 0 : apart, limit)];
}

function boxGap(a: Region, b: Region): number {
  const [p, q] = [bounds(a.outer), bounds(b.outer)];
  return Math.hypot(
    Math.max(0, p.minX - q.maxX, q.minX - p.maxX),
    Math.max(0, p.minY - q.maxY, q.minY - p.maxY),
  );
}
