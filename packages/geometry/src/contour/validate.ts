import { rememberedFor } from "../remember.js";
import { type Box, bounds, grownBox, pieceBounds } from "./bounds.js";
import type { Contour, Point, Region } from "./contour.js";
import { type Meeting, segmentIntersections, sidesOf } from "./intersect.js";
import { signedArea } from "./measure.js";
import { nearestOnSegment } from "./nearest.js";
import { overlappingPairs } from "./overlapping-pairs.js";
import { pointAt, type Segment, segmentLength, segments } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween } from "./vector.js";

/** What is wrong with a contour, and where (mm). */
export interface ContourFault {
  readonly what: "not-finite" | "too-few-vertices" | "no-length" | "meets-itself" | "doubled-edge";
  readonly at: Point;
}

/**
 * What keeps a list of vertices from being a simple closed contour; nothing when it is one. `meets-itself` covers
 * crossing and touching away from a shared vertex, `doubled-edge` two stretches that run along each other.
 */
export const contourFaults: (contour: Contour) => readonly ContourFault[] = rememberedFor(faultsOf);

function faultsOf(contour: Contour): readonly ContourFault[] {
  const unreadable = contour.filter((vertex) => ![vertex.x, vertex.y, vertex.bulge].every(Number.isFinite));
  if (unreadable.length > 0) return unreadable.map((at) => ({ what: "not-finite", at }));
  const pieces = segments(contour);
  const first = contour[0] ?? { x: 0, y: 0 };
  if (pieces.length < 2 || (pieces.length < 3 && pieces.every((piece) => piece.kind === "line"))) {
    return [{ what: "too-few-vertices", at: first }];
  }
  const empty = pieces.filter((piece) => segmentLength(piece) <= TOLERANCE);
  if (empty.length > 0) return empty.map((piece) => ({ what: "no-length", at: piece.from }));
  return selfMeetings(
    pieces,
    pieceBounds(contour).map((box) => grownBox(box, TOLERANCE)),
  );
}

function selfMeetings(pieces: readonly Segment[], boxes: readonly Box[]): ContourFault[] {
  const faults: ContourFault[] = [];
  for (const [i, j] of overlappingPairs(boxes)) {
    const [a, b] = [pieces[i], pieces[j]];
    if (a === undefined || b === undefined) continue;
    if (
      pieces.length > 2 &&
      isPlainCorner(a, b) &&
      (follows(i, j, pieces.length) || follows(j, i, pieces.length))
    )
      continue;
    const meetings = segmentIntersections(a, b);
    const doubled = commonStretch(a, b, meetings);
    const shared = [
      ...(follows(i, j, pieces.length) ? [a.to] : []),
      ...(follows(j, i, pieces.length) ? [b.to] : []),
    ];
    const stray = meetings.find((meeting) =>
      shared.every((at) => distanceBetween(at, meeting) > 2 * TOLERANCE),
    );
    if (doubled !== undefined) faults.push({ what: "doubled-edge", at: doubled });
    else if (stray !== undefined) faults.push({ what: "meets-itself", at: { x: stray.x, y: stray.y } });
  }
  return faults;
}

/** Two straight pieces that follow each other meet at their corner alone, unless one turns back along the other. */
function isPlainCorner(a: Segment, b: Segment): boolean {
  if (a.kind !== "line" || b.kind !== "line") return false;
  const [ax, ay, bx, by] = [a.to.x - a.from.x, a.to.y - a.from.y, b.to.x - b.from.x, b.to.y - b.from.y];
  return Math.abs(ax * by - ay * bx) > 0.01 * Math.hypot(ax, ay) * Math.hypot(bx, by);
}

function follows(i: number, j: number, count: number): boolean {
  return (i + 1) % count === j;
}

/** A point of a stretch where two segments run along each other. */
function commonStretch(a: Segment, b: Segment, meetings: readonly Meeting[]): Point | undefined {
  const cuts = meetings.map((meeting) => meeting.onA).sort((p, q) => p - q);
  for (let index = 1; index < cuts.length; index++) {
    const [start, end] = [cuts[index - 1] ?? 0, cuts[index] ?? 0];
    if ((end - start) * segmentLength(a) <= 4 * TOLERANCE) continue;
    const middle = pointAt(a, (start + end) / 2);
    if (distanceBetween(middle, nearestOnSegment(b, middle)) <= TOLERANCE) return middle;
  }
  return undefined;
}

/** What is wrong with a region; `contour` names the outline or the opening by its index. */
export interface RegionFault {
  readonly what: ContourFault["what"] | "wrong-way-round" | "opening-not-inside" | "openings-overlap";
  readonly contour: "outline" | number;
  readonly at: Point;
}

/**
 * What keeps a region from being well formed: faults of its contours, an outer contour that runs clockwise or an
 * opening that does not, an opening that leaves the outline or shares an edge with it, openings that overlap or share
 * an edge. Contours may touch at single points, as rings may in ISO 19125-1:2004 (simple features), clause 6.1.11.
 */
export function regionFaults(region: Region): RegionFault[] {
  const contours = [region.outer, ...region.openings];
  const own = contours.flatMap((contour, index) =>
    contourFaults(contour).map((fault): RegionFault => ({ ...fault, contour: nameOf(index) })),
  );
  if (own.length > 0) return own;
  return [...orientationFaults(contours), ...nestingFaults(region)];
}

function nameOf(index: number): "outline" | number {
  return index === 0 ? "outline" : index - 1;
}

function orientationFaults(contours: readonly Contour[]): RegionFault[] {
  return contours.flatMap((contour, index): RegionFault[] => {
    const at = contour[0];
    const right = index === 0 ? signedArea(contour) > 0 : signedArea(contour) < 0;
    return right || at === undefined ? [] : [{ what: "wrong-way-round", contour: nameOf(index), at }];
  });
}

function nestingFaults(region: Region): RegionFault[] {
  const faults: RegionFault[] = [];
  const boxes = region.openings.map((opening) => bounds(opening));
  region.openings.forEach((opening, index) => {
    const sides = sidesOf(opening, region.outer);
    const astray = sides.outside ?? sides.on;
    if (astray !== undefined) faults.push({ what: "opening-not-inside", contour: index, at: astray });
  });
  for (const [i, j] of overlappingPairs(boxes)) {
    const [a, b] = [region.openings[i], region.openings[j]];
    if (a === undefined || b === undefined) continue;
    const sides = sidesOf(a, b);
    const swallowed = sides.inside ?? sides.on ?? sidesOf(b, a).inside;
    if (swallowed !== undefined)
      faults.push({ what: "openings-overlap", contour: Math.max(i, j), at: swallowed });
  }
  return faults;
}
