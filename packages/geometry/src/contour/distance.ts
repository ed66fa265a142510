import { rememberedFor } from "../remember.js";
import { type Box, bounds, boxDistance, pieceBounds, pointBoxDistance } from "./bounds.js";
import type { Contour, Point, Region } from "./contour.js";
import { locateInRegion } from "./locate.js";
import { nearestOnSegment } from "./nearest.js";
import { nearestPair } from "./nearest-pair.js";
import { type Segment, segments } from "./segment.js";
import { distanceBetween, refuseNonFinite } from "./vector.js";

/** The least distance of two things (mm) and where it is: `from` on the first, `to` on the second. */
export interface Gap {
  readonly distance: number;
  readonly from: Point;
  readonly to: Point;
}

/** Least distance of two closed curves, mm; 0 when they meet. A curve inside another is as far as its curve is. */
export function contourDistance(a: Contour, b: Contour): number {
  return contourGap(a, b).distance;
}

/** Least distance of two closed curves and where it is. Exact for lines and arcs; throws RangeError on an empty contour. */
export function contourGap(a: Contour, b: Contour): Gap {
  return gapOf(boxed(a), boxed(b), undefined);
}

/** The gap of two closed curves when it is less than `limit`, mm: curves that are farther apart are told so sooner. */
export function contourGapBelow(a: Contour, b: Contour, limit: number): Gap | undefined {
  const nowhere = { x: 0, y: 0 };
  const least = gapOf(boxed(a), boxed(b), { distance: limit, from: nowhere, to: nowhere });
  return least.distance < limit ? contourGap(a, b) : undefined;
}

/** Distance of a point from a closed curve, mm, inside or outside. */
export function pointDistance(contour: Contour, point: Point): number {
  refuseNonFinite(point, "point");
  const boxes = pieceBounds(contour);
  let least = Number.POSITIVE_INFINITY;
  for (const [index, piece] of segments(contour).entries()) {
    const box = boxes[index];
    if (box !== undefined && pointBoxDistance(point, box) > least) continue;
    least = Math.min(least, distanceBetween(nearestOnSegment(piece, point), point));
  }
  return least;
}

/**
 * Least distance between the material of two regions, mm, and where it is; 0 when material touches or overlaps.
 * A region that lies in an opening of the other is as far as the opening's curve.
 */
export function regionGap(a: Region, b: Region): Gap {
  const inA = somePointInside(b, a);
  if (inA !== undefined) return { distance: 0, from: inA, to: inA };
  const inB = somePointInside(a, b);
  if (inB !== undefined) return { distance: 0, from: inB, to: inB };
  // Neither outline starts in the other's material: whatever overlaps makes an outline cross a contour.
  const outerA = boxed(a.outer);
  const outerB = boxed(b.outer);
  let best = gapOf(outerA, outerB, undefined);
  for (const opening of a.openings) best = gapOf(boxed(opening), outerB, best);
  for (const opening of b.openings) best = gapOf(outerA, boxed(opening), best);
  return best;
}

/** Whether the material of two regions touches or overlaps: `regionGap` is 0. Told at once when they are far apart. */
export function regionsMeet(a: Region, b: Region): boolean {
  if (somePointInside(b, a) !== undefined || somePointInside(a, b) !== undefined) return true;
  const nowhere = { x: 0, y: 0 };
  const none: Gap = { distance: Number.MIN_VALUE, from: nowhere, to: nowhere };
  const touches = (one: Contour, other: Contour): boolean =>
    gapOf(boxed(one), boxed(other), none).distance === 0;
  return (
    touches(a.outer, b.outer) ||
    a.openings.some((opening) => touches(opening, b.outer)) ||
    b.openings.some((opening) => touches(a.outer, opening))
  );
}

function somePointInside(of: Region, material: Region): Point | undefined {
  const point = of.outer[0];
  if (point === undefined) throw new RangeError("a region without an outline has no distance");
  return locateInRegion(material, point) === "inside" ? { x: point.x, y: point.y } : undefined;
}

interface BoxedSegment {
  readonly segment: Segment;
  readonly box: Box;
}

interface BoxedContour {
  readonly pieces: readonly BoxedSegment[];
  readonly box: Box;
}

function boxed(contour: Contour): BoxedContour {
  if (contour.length === 0) throw new RangeError("a contour without vertices has no distance");
  return boxedPieces(contour);
}

const boxedPieces = rememberedFor((contour: Contour): BoxedContour => {
  const boxes = pieceBounds(contour);
  const pieces = segments(contour).flatMap((segment, index) => {
    const box = boxes[index];
    return box === undefined ? [] : [{ segment, box }];
  });
  return { pieces, box: bounds(contour) };
});

/** The smaller of `known` and the gap of two contours. Boxes are compared first, the nearest to the other contour before the rest. */
function gapOf(a: BoxedContour, b: BoxedContour, known: Gap | undefined): Gap {
  let best: Gap = known ?? firstGap(a, b);
  if (boxDistance(a.box, b.box) >= best.distance) return best;
  const ordered = a.pieces
    .map((piece) => ({ piece, reach: boxDistance(piece.box, b.box) }))
    .sort((p, q) => p.reach - q.reach);
  for (const { piece, reach } of ordered) {
    if (reach >= best.distance) break;
    for (const other of b.pieces) {
      if (boxDistance(piece.box, other.box) >= best.distance) continue;
      const gap = nearestPair(piece.segment, other.segment);
      if (gap.distance < best.distance) best = gap;
    }
  }
  return best;
}

function firstGap(a: BoxedContour, b: BoxedContour): Gap {
  const [first, other] = [a.pieces[0], b.pieces[0]];
  if (first === undefined || other === undefined)
    throw new RangeError("a contour without vertices has no distance");
  return nearestPair(first.segment, other.segment);
}
