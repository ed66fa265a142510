import { biarc, type CurvePoint } from "./biarc.js";
import type { Point, Vertex } from "./contour.js";
import { nearestOnSegment } from "./nearest.js";
import { type Segment, segmentBetween } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween, refuseNonFinite } from "./vector.js";

/** A smooth curve over 0 <= t <= 1, mm; `tangent` is its direction of travel, of any length. */
export interface Curve {
  at(t: number): Point;
  tangent(t: number): Point;
}

/** A measured point of a smooth curve; without a tangent, that of the circle through it and its neighbours is taken. */
export interface FitPoint extends Point {
  readonly tangent?: Point;
}

/**
 * Few smooth arcs and lines along a curve, or along points of one: nowhere farther from it than `tolerance` (mm). An open path whose last
 * vertex is the end; when the curve ends where it starts, that vertex is left out and the result is a contour.
 *
 * Greedy: each pair of arcs reaches as far as the tolerance allows, found by halving the step. Throws RangeError on numbers that
 * are not finite, a tolerance below a hundred times the kernel's, fewer than two points, or a curve with a corner.
 */
export function fitArcs(source: Curve | readonly FitPoint[], tolerance: number): Vertex[] {
  if (!(Number.isFinite(tolerance) && tolerance >= 100 * TOLERANCE)) {
    throw new RangeError(`the tolerance must be at least ${100 * TOLERANCE} mm, got ${tolerance}`);
  }
  const path = isPoints(source) ? fitPoints(source, tolerance) : fitCurve(source, tolerance);
  const [first, last] = [path[0], path.at(-1)];
  if (first === undefined || last === undefined) return path;
  return path.length > 2 && distanceBetween(first, last) <= TOLERANCE ? path.slice(0, -1) : path;
}

function isPoints(source: Curve | readonly FitPoint[]): source is readonly FitPoint[] {
  return Array.isArray(source);
}

/** A step is checked at this many places inside; what lies between them is covered by keeping a tenth of the tolerance. */
const CHECKS = 24;

function fitCurve(curve: Curve, tolerance: number): Vertex[] {
  const path: Vertex[] = [];
  let t = 0;
  let step = 1;
  while (t < 1) {
    const attempt = (size: number): Vertex[] | undefined =>
      fittedStep(curve, t, Math.min(1, t + size), tolerance);
    let fitted = attempt(step);
    while (fitted === undefined && step > SMALLEST_STEP) {
      step /= 2;
      fitted = attempt(step);
    }
    if (fitted === undefined)
      throw new RangeError(`no arc follows the curve near t = ${t}: it has a corner there`);
    // Between the step that fits and its double, which did not, gain what six halvings find.
    let gain = step / 2;
    for (let round = 0; round < 6 && t + step < 1; round++, gain /= 2) {
      const longer = attempt(step + gain);
      if (longer === undefined) continue;
      fitted = longer;
      step += gain;
    }
    path.push(...fitted);
    t = Math.min(1, t + step);
    step *= 2;
  }
  return [...path, { ...finitePoint(curve.at(1)), bulge: 0 }];
}

const SMALLEST_STEP = 1e-9;

function fittedStep(curve: Curve, start: number, end: number, tolerance: number): Vertex[] | undefined {
  const to = curvePoint(curve, end, start);
  const arcs = biarc(curvePoint(curve, start, end), to);
  if (arcs === undefined) return undefined;
  const pieces = piecesTo(arcs, to.at);
  for (let check = 1; check < CHECKS; check++) {
    const point = finitePoint(curve.at(start + ((end - start) * check) / CHECKS));
    if (distanceTo(pieces, point) > 0.9 * tolerance) return undefined;
  }
  return arcs;
}

/** Where a curve stands still (a handle of no length), its direction is that of the chord to a point a little towards `inside`. */
function curvePoint(curve: Curve, t: number, inside: number): CurvePoint {
  const at = finitePoint(curve.at(t));
  const tangent = finitePoint(curve.tangent(t));
  if (tangent.x !== 0 || tangent.y !== 0) return { at, tangent };
  const near = finitePoint(curve.at(t + (inside - t) * STANDSTILL));
  const way = Math.sign(inside - t);
  return { at, tangent: { x: (near.x - at.x) * way, y: (near.y - at.y) * way } };
}

/** Part of a step over which the direction at a standstill is measured. */
const STANDSTILL = 1e-3;

function finitePoint(point: Point): Point {
  refuseNonFinite(point, "curve point");
  return { x: point.x, y: point.y };
}

function piecesTo(arcs: readonly Vertex[], end: Point): Segment[] {
  return arcs.map((vertex, index) => segmentBetween(vertex, arcs[index + 1] ?? end));
}

function distanceTo(pieces: readonly Segment[], point: Point): number {
  return Math.min(...pieces.map((piece) => distanceBetween(nearestOnSegment(piece, point), point)));
}

function fitPoints(points: readonly FitPoint[], tolerance: number): Vertex[] {
  if (points.length < 2) throw new RangeError(`arcs need at least 2 points, got ${points.length}`);
  points.forEach((point, index) => {
    refuseNonFinite(point, `point ${index}`);
  });
  const knots = points.map(
    (point, index): CurvePoint => ({ at: point, tangent: point.tangent ?? tangentThrough(points, index) }),
  );
  const path: Vertex[] = [];
  let index = 0;
  while (index < knots.length - 1) {
    let best: { arcs: Vertex[]; next: number } | undefined;
    for (let next = index + 1; next < knots.length; next++) {
      const arcs = arcsOver(knots, index, next, tolerance);
      if (arcs === undefined && next > index + 1) break;
      if (arcs !== undefined) best = { arcs, next };
    }
    if (best === undefined)
      throw new RangeError(`points ${index} and ${index + 1} leave no finite arc between them`);
    path.push(...best.arcs);
    index = best.next;
  }
  const last = points.at(-1) ?? { x: 0, y: 0 };
  return [...path, { x: last.x, y: last.y, bulge: 0 }];
}

function arcsOver(
  knots: readonly CurvePoint[],
  from: number,
  to: number,
  tolerance: number,
): Vertex[] | undefined {
  const [start, end] = [knots[from], knots[to]];
  if (start === undefined || end === undefined) return undefined;
  const arcs = biarc(start, end);
  if (arcs === undefined) return undefined;
  const pieces = piecesTo(arcs, end.at);
  const isClose = knots.slice(from + 1, to).every((knot) => distanceTo(pieces, knot.at) <= tolerance);
  return isClose ? arcs : undefined;
}

/** The tangent at a point of the circle through it and its two neighbours; at an open end, through the next two. */
function tangentThrough(points: readonly FitPoint[], index: number): Point {
  const count = points.length;
  const [first, last] = [points[0], points.at(-1)];
  const isClosed =
    first !== undefined && last !== undefined && count > 3 && distanceBetween(first, last) <= TOLERANCE;
  const at = points[index] ?? { x: 0, y: 0 };
  const before = points[index - 1] ?? (isClosed ? points[count - 2] : undefined);
  const after = points[index + 1] ?? (isClosed ? points[1] : undefined);
  if (before !== undefined && after !== undefined) return middleTangent(before, at, after);
  if (after !== undefined) return endTangent(at, after, points[index + 2]);
  const back = before === undefined ? { x: 1, y: 0 } : endTangent(at, before, points[index - 2]);
  return { x: -back.x, y: -back.y };
}

/** The chord directions, each weighted by the length of the other chord: exact on a circle. */
function middleTangent(before: Point, at: Point, after: Point): Point {
  const [a, b] = [distanceBetween(before, at), distanceBetween(at, after)];
  return {
    x: ((at.x - before.x) * b) / a + ((after.x - at.x) * a) / b,
    y: ((at.y - before.y) * b) / a + ((after.y - at.y) * a) / b,
  };
}

/** The tangent at the first of three points of a circle: the middle one's, mirrored in the first chord. */
function endTangent(at: Point, next: Point, afterNext: Point | undefined): Point {
  const chord = { x: next.x - at.x, y: next.y - at.y };
  if (afterNext === undefined) return chord;
  const middle = middleTangent(at, next, afterNext);
  const scale = (2 * (middle.x * chord.x + middle.y * chord.y)) / (chord.x * chord.x + chord.y * chord.y);
  return { x: scale * chord.x - middle.x, y: scale * chord.y - middle.y };
}
