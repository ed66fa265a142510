import type { Arrangement, Edge } from "./arrangement.js";
import type { Contour, Region } from "./contour.js";
import { locate } from "./locate.js";
import { traceLoops } from "./loops.js";
import { contourLength, signedArea } from "./measure.js";
import { pointAt, segments } from "./segment.js";
import { smoothContour } from "./smooth-contour.js";
import { TOLERANCE } from "./tolerance.js";

/** The regions bounded by edges that have their material on the left. */
export function regionsFromEdges(arrangement: Arrangement, edges: readonly Edge[]): Region[] {
  const contours = traceLoops(arrangement, edges)
    .map((loop) => smoothContour(arrangement, loop))
    .filter((contour) => !isSliver(contour));
  return regionsFromContours(contours);
}

/** Rounding leaves loops thinner than the tolerance: they are nothing. */
function isSliver(contour: Contour): boolean {
  return contour.length < 2 || Math.abs(signedArea(contour)) <= (TOLERANCE * contourLength(contour)) / 2;
}

/** Every clockwise contour becomes an opening of the smallest counter-clockwise one it lies in. */
export function regionsFromContours(contours: readonly Contour[]): Region[] {
  const outers = contours
    .map((outer) => ({ outer, area: signedArea(outer), openings: [] as Contour[] }))
    .filter(({ area }) => area > 0);
  const bySize = [...outers].sort((p, q) => p.area - q.area);
  for (const opening of contours) {
    const area = -signedArea(opening);
    if (area <= 0) continue;
    bySize.find((region) => region.area > area && contains(region.outer, opening))?.openings.push(opening);
  }
  return outers.map(({ outer, openings }) => ({ outer, openings }));
}

/** The contours touch at most at points, so the first middle that is not on the outer one decides. */
function contains(outer: Contour, opening: Contour): boolean {
  for (const piece of segments(opening)) {
    const side = locate(outer, pointAt(piece, 0.5));
    if (side !== "on") return side === "inside";
  }
  return false;
}
