import { type Contour, locate, type Point, pointAt, segmentLength, segments } from "@keelcut/geometry";
import { type Curve, curveOf, distanceTo } from "./curve.js";

/**
 * How far a written contour may lie from where it should, mm: coordinates are written to 1e-6, and the radius of an
 * arc in an SVG file is good to about as much.
 */
export const WRITTEN = 1e-5;

/** The largest difference between a contour found and the one wanted, and where. */
export interface Deviation {
  readonly distance: number;
  readonly at: Point;
}

/**
 * How far `found` is from lying `offset` mm outside `nominal` (inside when negative): the largest error of that
 * distance at many points of `found`, taken from the nominal contour itself and not from any offset contour.
 */
export function deviation(found: Contour, nominal: Contour, offset: number): Deviation {
  const points = samples(found);
  const wanted = Math.abs(offset);
  const worst = worstDistance(points, curveOf(nominal), wanted);
  const first = points[0];
  if (wanted <= WRITTEN || worst.distance >= wanted || first === undefined) return worst;
  // A curve that is nowhere nearer than it should be cannot change sides: one point tells.
  const right = locate(nominal, first) === (offset > 0 ? "outside" : "inside");
  return right ? worst : { distance: 2 * wanted, at: first };
}

function worstDistance(points: readonly Point[], curve: Curve, wanted: number): Deviation {
  let worst: Deviation = { distance: 0, at: points[0] ?? { x: 0, y: 0 } };
  for (const at of points) {
    const error = Math.abs(distanceTo(curve, at) - wanted);
    if (error > worst.distance) worst = { distance: error, at };
  }
  return worst;
}

/** Both ways: also every point of `wanted` must lie on `found`. For contours that should be the same. */
export function sameCurve(found: Contour, wanted: Contour): Deviation {
  const one = deviation(found, wanted, 0);
  const other = deviation(wanted, found, 0);
  return one.distance >= other.distance ? one : other;
}

/** Total length of the true arcs, mm. */
export function arcLength(contour: Contour): number {
  let length = 0;
  for (const piece of segments(contour)) if (piece.kind === "arc") length += segmentLength(piece);
  return length;
}

/** Five points of every segment: enough to pin a line or an arc down. */
function samples(contour: Contour): Point[] {
  return segments(contour).flatMap((piece) => [0, 0.25, 0.5, 0.75].map((t) => pointAt(piece, t)));
}
