import { boxesMeet, grownBox, pieceBounds, segmentBounds } from "./bounds.js";
import type { Contour, Point } from "./contour.js";
import { crossings, touchings } from "./crossings.js";
import { locate, type Side } from "./locate.js";
import { nearestOnSegment } from "./nearest.js";
import { parameterOf, pointAt, type Segment, segmentLength, segments } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween } from "./vector.js";

/** A point two segments share within the tolerance, with its parameters (0..1) on both. */
export interface Meeting extends Point {
  readonly onA: number;
  readonly onB: number;
}

/**
 * Every point where two segments cross or touch within the tolerance. Where they run along each other, the two ends
 * of the common stretch. Cut at these points, their pieces meet at ends only or coincide.
 */
export function segmentIntersections(a: Segment, b: Segment): Meeting[] {
  if (!boxesMeet(grownBox(segmentBounds(a), TOLERANCE), segmentBounds(b))) return [];
  const meetings: Meeting[] = [];
  const add = (point: Point, onA: number, onB: number): void => {
    if (meetings.some((known) => distanceBetween(known, point) <= TOLERANCE)) return;
    meetings.push({ x: point.x, y: point.y, onA, onB });
  };
  for (const [end, onA] of ends(a)) {
    const other = nearestOnSegment(b, end);
    if (distanceBetween(end, other) <= TOLERANCE) add(end, onA, parameterOf(b, other));
  }
  for (const [end, onB] of ends(b)) {
    const other = nearestOnSegment(a, end);
    if (distanceBetween(end, other) <= TOLERANCE) add(end, parameterOf(a, other), onB);
  }
  for (const point of [...touchings(a, b), ...crossings(a, b)]) {
    add(point, parameterOf(a, point), parameterOf(b, point));
  }
  return meetings;
}

function ends(segment: Segment): readonly (readonly [Point, number])[] {
  return [
    [segment.from, 0],
    [segment.to, 1],
  ];
}

/** Whether two closed curves pass through each other: part of one runs inside, part outside the other. Touching is not crossing. */
export function contoursCross(a: Contour, b: Contour): boolean {
  const sides = sidesOf(a, b);
  return sides.inside !== undefined && sides.outside !== undefined;
}

/** For each side of `b` on which a stretch of `a` runs, a point of such a stretch; `on` when they share an edge. */
export function sidesOf(a: Contour, b: Contour): Partial<Record<Side, Point>> {
  const boxes = pieceBounds(b);
  const others = segments(b).flatMap((piece, index) => {
    const box = boxes[index];
    return box === undefined ? [] : [{ piece, box: grownBox(box, TOLERANCE) }];
  });
  const sides: Partial<Record<Side, Point>> = {};
  let placed = false;
  for (const piece of segments(a)) {
    const box = segmentBounds(piece);
    const cuts = others
      .filter((other) => boxesMeet(box, other.box))
      .flatMap((other) => segmentIntersections(piece, other.piece).map((meeting) => meeting.onA));
    // A segment that meets nothing runs on the side of the one before it, when that meets nothing either.
    if (cuts.length > 0 || !placed) {
      for (const point of middles(piece, cuts)) sides[locate(b, point)] ??= point;
    }
    placed = cuts.length === 0;
  }
  return sides;
}

/** A point in the middle of each piece that remains when a segment is cut; pieces too short to have a side are left out. */
function middles(segment: Segment, cuts: readonly number[]): Point[] {
  const sorted = [0, ...cuts, 1].sort((p, q) => p - q);
  const shortest = (4 * TOLERANCE) / Math.max(segmentLength(segment), TOLERANCE);
  return sorted.slice(1).flatMap((end, index) => {
    const start = sorted[index] ?? 0;
    return end - start > shortest ? [pointAt(segment, (start + end) / 2)] : [];
  });
}
