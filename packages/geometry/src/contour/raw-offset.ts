import { bearing } from "./bearing.js";
import type { Contour, Point } from "./contour.js";
import { crossings } from "./crossings.js";
import { type ArcSegment, arc, type Segment, segmentLength, segments, tangentAt } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { between, distanceBetween, positiveAngle } from "./vector.js";

/**
 * Every piece a true offset to the right of the contour (to the left when `distance` is negative) can be made of, untrimmed:
 * each line moved, each arc on its concentric circle, and an arc about each corner that turns away from that side.
 * At other corners the pieces cross and are trimmed later. An arc whose circle shrinks to nothing leaves no piece:
 * points beyond its centre are nearer to its ends than to it.
 */
export function rawOffset(contour: Contour, distance: number): Segment[] {
  const pieces = segments(contour).filter((piece) => segmentLength(piece) > TOLERANCE);
  const offsets = pieces.map((piece) => offsetSegment(piece, distance));
  const turnings = pieces.map((piece, index) =>
    turningAt(piece, pieces[(index + 1) % pieces.length] ?? piece),
  );
  const joints = turnings.map((turning, index) => {
    const next = (index + 1) % pieces.length;
    return flatJoint(turning * distance, Math.abs(distance), offsets[index], offsets[next]);
  });
  return pieces.flatMap((piece, index) => {
    const offset = offsets[index];
    const after = pieces[(index + 1) % pieces.length] ?? piece;
    const join = cornerJoin(piece, after, turnings[index] ?? 0, distance);
    return offset === undefined ? join : [withEnds(offset, joints.at(index - 1), joints[index]), ...join];
  });
}

/** What is left out between two ends, mm: an arc about a corner and a vanished arc beside it stay within the tolerance together. */
const SMALL_GAP = TOLERANCE / 2;

/** Corners flatter than this (radians) are joined right away. */
const FLAT_CORNER = 0.1;

/**
 * Where two pieces nearly continue one another, the common end of their offsets; undefined at a real corner.
 * Ends almost together meet halfway, which lies on both prolonged up to the square of the turning. Ends that overlap
 * are trimmed at their crossing here, because tails so flat would coincide with the pieces themselves.
 */
function flatJoint(
  opening: number,
  distance: number,
  before: Segment | undefined,
  after: Segment | undefined,
): Point | undefined {
  if (before === undefined || after === undefined) return undefined;
  if (Math.abs(opening) <= SMALL_GAP) return between(before.to, after.from, 0.5);
  if (opening > 0 || -opening > FLAT_CORNER * distance) return undefined;
  return crossings(before, after).find(
    (point) => Math.max(distanceBetween(point, before.to), distanceBetween(point, after.from)) <= -opening,
  );
}

/** The offset with its ends moved a little along its line or circle. */
function withEnds(offset: Segment, from: Point | undefined, to: Point | undefined): Segment {
  const ends = { from: from ?? offset.from, to: to ?? offset.to };
  if (offset.kind === "line") return { ...offset, ...ends };
  const { center, startAngle, sweep } = offset;
  const shift = (point: Point | undefined, angle: number): number => {
    if (point === undefined) return 0;
    const ahead = positiveAngle(Math.atan2(point.y - center.y, point.x - center.x) - angle);
    return ahead > Math.PI ? ahead - 2 * Math.PI : ahead;
  };
  const start = shift(from, startAngle);
  return {
    ...offset,
    ...ends,
    startAngle: startAngle + start,
    sweep: sweep - start + shift(to, startAngle + sweep),
  };
}

/** The segment moved to its right by `distance` (mm; to its left when negative); undefined when an arc shrinks to nothing. */
export function offsetSegment(piece: Segment, distance: number): Segment | undefined {
  if (piece.kind === "line") {
    const way = tangentAt(piece, 0);
    return {
      kind: "line",
      from: toTheRight(piece.from, way, distance),
      to: toTheRight(piece.to, way, distance),
    };
  }
  const radius = piece.radius + distance * Math.sign(piece.sweep);
  return radius * Math.abs(piece.sweep) <= SMALL_GAP ? undefined : onCircle(piece, radius);
}

/** The ends are moved along the normals of the drawn ends, not recomputed from the angles: so they meet those of their neighbours. */
function onCircle(piece: ArcSegment, radius: number): ArcSegment {
  const scale = radius / piece.radius;
  const outward = (point: Point): Point => ({
    x: piece.center.x + (point.x - piece.center.x) * scale,
    y: piece.center.y + (point.y - piece.center.y) * scale,
  });
  return { ...piece, from: outward(piece.from), to: outward(piece.to), radius };
}

function toTheRight(point: Point, way: Point, distance: number): Point {
  return { x: point.x + way.y * distance, y: point.y - way.x * distance };
}

function cornerJoin(before: Segment, after: Segment, turning: number, distance: number): Segment[] {
  if (turning * distance <= 0 || Math.abs(turning * distance) <= SMALL_GAP) return [];
  const corner = after.from;
  const start = toTheRight(corner, tangentAt(before, 1), distance);
  const startAngle = Math.atan2(start.y - corner.y, start.x - corner.x);
  const join = arc(corner, Math.abs(distance), startAngle, turning);
  return [{ ...join, from: start, to: toTheRight(corner, tangentAt(after, 0), distance) }];
}

/** The change of direction from one segment to the next, -pi..pi, positive to the left. */
export function turningAt(before: Segment, after: Segment): number {
  const a = tangentAt(before, 1);
  const b = tangentAt(after, 0);
  const turning = Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
  return Math.PI - Math.abs(turning) < CUSP ? Math.abs(turning) * cuspSide(before, after) : turning;
}

/** Two pieces that turn back within this angle of each other (radians) have no reliable side by their tangents. */
const CUSP = 1e-4;

/** At a cusp: 1 when the way back lies left of the way out (a spike), -1 when right (a slit), seen a little way off. */
function cuspSide(before: Segment, after: Segment): number {
  const reach = Math.min(distanceBetween(before.from, before.to), distanceBetween(after.from, after.to)) / 2;
  const back = bearing(before, before.to, reach, false);
  const out = bearing(after, after.from, reach, true);
  return positiveAngle(back - out) < Math.PI ? 1 : -1;
}
