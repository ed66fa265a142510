import type { Point } from "./contour.js";
import { crossings, TANGENT } from "./crossings.js";
import { nearestOnSegment } from "./nearest.js";
import { type ArcSegment, arcParameter, type LineSegment, type Segment } from "./segment.js";
import { distanceBetween } from "./vector.js";

interface Pair {
  readonly distance: number;
  readonly from: Point;
  readonly to: Point;
}

/**
 * The two nearest points of two segments. The distance of two curves is least where they cross, at an end of one of
 * them, or where one straight line is normal to both; each kind of pair is tried.
 */
export function nearestPair(a: Segment, b: Segment): Pair {
  const crossing = crossings(a, b)[0];
  if (crossing !== undefined) return { distance: 0, from: crossing, to: crossing };
  let best = pair(a.from, nearestOnSegment(b, a.from));
  const consider = (candidate: Pair | undefined): void => {
    if (candidate !== undefined && candidate.distance < best.distance) best = candidate;
  };
  consider(pair(a.to, nearestOnSegment(b, a.to)));
  consider(pair(nearestOnSegment(a, b.from), b.from));
  consider(pair(nearestOnSegment(a, b.to), b.to));
  consider(commonNormal(a, b));
  return best;
}

function pair(from: Point, to: Point): Pair {
  return { distance: distanceBetween(from, to), from, to };
}

/** Two lines have no common normal that their ends do not share already. */
function commonNormal(a: Segment, b: Segment): Pair | undefined {
  if (a.kind === "arc") return b.kind === "arc" ? arcNormal(a, b) : swapped(lineNormal(b, a));
  return b.kind === "arc" ? lineNormal(a, b) : undefined;
}

function swapped(found: Pair | undefined): Pair | undefined {
  return found && { distance: found.distance, from: found.to, to: found.from };
}

/**
 * From the foot of the centre on the line outwards: only a line that passes outside the circle is nearest there, or one
 * that touches it, which crosses it no deeper than rounding.
 */
function lineNormal(line: LineSegment, circle: ArcSegment): Pair | undefined {
  const foot = nearestOnSegment(line, circle.center);
  if (distanceBetween(foot, circle.center) < circle.radius - TANGENT) return undefined;
  const angle = Math.atan2(foot.y - circle.center.y, foot.x - circle.center.x);
  return arcParameter(circle, angle) === undefined ? undefined : pair(foot, nearestOnSegment(circle, foot));
}

/**
 * Along the line of centres: between two circles apart, or from the inner to the outer one where they are closest. Circles
 * that touch count as apart or as one in the other: they cross no deeper than rounding.
 */
function arcNormal(a: ArcSegment, b: ArcSegment): Pair | undefined {
  const apart = distanceBetween(a.center, b.center);
  if (apart === 0) return undefined;
  if (apart >= a.radius + b.radius - TANGENT) return onBothArcs(a, b, 1, -1, apart);
  if (apart <= a.radius - b.radius + TANGENT) return onBothArcs(a, b, 1, 1, apart);
  if (apart <= b.radius - a.radius + TANGENT) return onBothArcs(a, b, -1, -1, apart);
  return undefined;
}

function onBothArcs(
  a: ArcSegment,
  b: ArcSegment,
  sideA: number,
  sideB: number,
  apart: number,
): Pair | undefined {
  const ux = (b.center.x - a.center.x) / apart;
  const uy = (b.center.y - a.center.y) / apart;
  if (arcParameter(a, Math.atan2(sideA * uy, sideA * ux)) === undefined) return undefined;
  if (arcParameter(b, Math.atan2(sideB * uy, sideB * ux)) === undefined) return undefined;
  return pair(
    { x: a.center.x + sideA * a.radius * ux, y: a.center.y + sideA * a.radius * uy },
    { x: b.center.x + sideB * b.radius * ux, y: b.center.y + sideB * b.radius * uy },
  );
}
