import { arrange, type Edge, type Piece, reversedEdge } from "./arrangement.js";
import { settled } from "./boolean.js";
import { type Box, pointBoxDistance, segmentBounds } from "./bounds.js";
import type { Contour, Point, Region } from "./contour.js";
import { intervalIndex } from "./interval-index.js";
import { signedArea } from "./measure.js";
import { nearestOnSegment } from "./nearest.js";
import { counterClockwise, reversed } from "./orient.js";
import { rawOffset } from "./raw-offset.js";
import { refuseNonFiniteContours } from "./refuse.js";
import { pointAt, type Segment, segments } from "./segment.js";
import { sharpened } from "./sharpen.js";
import { regionsFromEdges } from "./stitch.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween } from "./vector.js";

/** How an offset goes around a convex corner: an arc about the corner, or the two sides prolonged until they meet. */
export type CornerJoin = "round" | "sharp";

/**
 * The curves at `distance` (mm) from a contour: outside it when positive, inside when negative, whichever way it runs.
 * Lines give lines and arcs concentric arcs, exactly. Trimmed everywhere, so the result may be nothing (it vanished),
 * one contour, or several: parts run the way the contour ran, enclosed gaps that closed up run the other way.
 * Throws RangeError on numbers that are not finite.
 */
export function offsetContour(contour: Contour, distance: number, corners: CornerJoin = "round"): Contour[] {
  const regions = offsetRegion({ outer: counterClockwise(contour), openings: [] }, distance, corners);
  const results = regions.flatMap((region) => [region.outer, ...region.openings]);
  return signedArea(contour) < 0 ? results.map(reversed) : results;
}

/**
 * The material within `distance` (mm) of a region's material when positive, or farther than -distance from everything
 * else when negative. Openings shrink as the material grows. The region must be well formed (`regionFaults`).
 */
export function offsetRegion(region: Region, distance: number, corners: CornerJoin = "round"): Region[] {
  if (!Number.isFinite(distance))
    throw new RangeError(`the distance must be a finite number, got ${distance}`);
  const contours = [region.outer, ...region.openings];
  refuseNonFiniteContours(contours);
  if (Math.abs(distance) <= TOLERANCE / 1000) return [region];
  const pieces = contours.flatMap((contour, number): Piece[] =>
    rawOffset(contour, distance).map((segment) => ({ segment, contour: number, set: 0 })),
  );
  const arrangement = arrange(pieces);
  const isClear = clearance(contours.flatMap(segments), Math.abs(distance) - NOISE);
  const kept = arrangement.edges.flatMap((edge): Edge[] => {
    if (edge.counts[0] === 0 || !onPieces(pieces, edge).some(isClear)) return [];
    return [edge.counts[0] > 0 ? edge : reversedEdge(edge)];
  });
  const results = settled(regionsFromEdges(arrangement, kept));
  return corners === "sharp" ? results.map((result) => sharpened(result, contours, distance)) : results;
}

/**
 * The middle of an edge on each piece it was cut from. The edge itself may be moved by the tolerance to meet its nodes, and of two
 * pieces that cross so flatly that they coincide, each is the true offset on its side of the crossing.
 */
function onPieces(pieces: readonly Piece[], edge: Edge): Point[] {
  return [edge.source, ...edge.doubles].map(({ piece, start, end }) =>
    pointAt(pieces[piece]?.segment ?? edge.segment, (start + end) / 2),
  );
}

/** How far rounding may put a true point of the offset too near, mm: a thousand times what is seen at 10 m. */
const NOISE = TOLERANCE / 1000;

/** What is measured from a far centre is off by some of the steps between doubles of that size, mm. */
function roundingOf(segment: Segment): number {
  return segment.kind === "arc" ? 8 * Number.EPSILON * segment.radius : 0;
}

/**
 * A test whether a point is at least `distance` away from all of the source. Every point of the true offset is exactly that
 * far from its nearest source point; every other point of the raw offset is nearer to something. As the whole way back to
 * the source is then free, such a point is on the right side as well.
 */
function clearance(source: readonly Segment[], distance: number): (point: Point) => boolean {
  const boxed = source.map((segment): [Segment, Box] => [segment, segmentBounds(segment)]);
  const near = intervalIndex(
    boxed.map(([, box]) => ({ min: box.minX - distance, max: box.maxX + distance })),
  );
  return (point) =>
    near(point.x).every((index) => {
      const [segment, box] = boxed[index] ?? [];
      if (segment === undefined || box === undefined || pointBoxDistance(point, box) >= distance) return true;
      return distanceBetween(nearestOnSegment(segment, point), point) >= distance - roundingOf(segment);
    });
}
