import type { Contour, Point } from "./contour.js";
import { type ArcSegment, segments } from "./segment.js";

/** Integrals of 1, x, y, x2, y2, xy over an enclosed area, measured from `origin`; negative when run clockwise. */
export interface Moments {
  readonly origin: Point;
  readonly area: number;
  readonly x: number;
  readonly y: number;
  readonly xx: number;
  readonly yy: number;
  readonly xy: number;
}

/**
 * The moments of the area a contour encloses: those of the polygon of its chords plus those of the circular
 * segment over each arc. Taken about a point of the contour, so that a contour far from zero loses no decimals.
 */
export function momentsOf(contour: Contour, origin: Point = contour[0] ?? { x: 0, y: 0 }): Moments {
  let sum = noMoments(origin);
  for (const piece of segments(contour)) {
    sum = addMoments(sum, triangleMoments(origin, piece.from, piece.to));
    if (piece.kind === "arc") sum = addMoments(sum, circularSegmentMoments(origin, piece));
  }
  return sum;
}

export function noMoments(origin: Point): Moments {
  return { origin, area: 0, x: 0, y: 0, xx: 0, yy: 0, xy: 0 };
}

/** Both must be about the same origin. */
export function addMoments(a: Moments, b: Moments): Moments {
  return {
    origin: a.origin,
    area: a.area + b.area,
    x: a.x + b.x,
    y: a.y + b.y,
    xx: a.xx + b.xx,
    yy: a.yy + b.yy,
    xy: a.xy + b.xy,
  };
}

export function scaledMoments(moments: Moments, by: number): Moments {
  return {
    origin: moments.origin,
    area: moments.area * by,
    x: moments.x * by,
    y: moments.y * by,
    xx: moments.xx * by,
    yy: moments.yy * by,
    xy: moments.xy * by,
  };
}

/** The triangle origin, from, to: the summand of the area formula for polygons. */
function triangleMoments(origin: Point, from: Point, to: Point): Moments {
  const ax = from.x - origin.x;
  const ay = from.y - origin.y;
  const bx = to.x - origin.x;
  const by = to.y - origin.y;
  const double = ax * by - ay * bx;
  return {
    origin,
    area: double / 2,
    x: (double * (ax + bx)) / 6,
    y: (double * (ay + by)) / 6,
    xx: (double * (ax * ax + ax * bx + bx * bx)) / 12,
    yy: (double * (ay * ay + ay * by + by * by)) / 12,
    xy: (double * (2 * ax * ay + ax * by + ay * bx + 2 * bx * by)) / 24,
  };
}

/**
 * The circular segment between an arc and its chord, half angle a, u along its axis from the centre, v across:
 * area r2 (a - sin a cos a), integral of u 2/3 r3 sin3 a, of u2 r4/4 (a - sin a cos a + 2 sin3 a cos a),
 * of v2 r4/12 (3 a - 3 sin a cos a - 2 sin3 a cos a). (Integration in polar strips; the segment entries of
 * the tables of plane sections in engineering handbooks, e.g. Roark's Formulas, 7th ed., table A.1.)
 */
function circularSegmentMoments(origin: Point, piece: ArcSegment): Moments {
  const { radius: r, center } = piece;
  const half = Math.abs(piece.sweep) / 2;
  const sin = Math.sin(half);
  const cos = Math.cos(half);
  const area = r * r * halfAngleExcess(half);
  const first = (2 / 3) * r ** 3 * sin ** 3;
  const along = (r * r * area) / 4 + (r ** 4 * sin ** 3 * cos) / 2;
  const across = (r * r * area) / 4 - (r ** 4 * sin ** 3 * cos) / 6;

  const axis = piece.startAngle + piece.sweep / 2;
  const ux = Math.cos(axis);
  const uy = Math.sin(axis);
  const cx = center.x - origin.x;
  const cy = center.y - origin.y;
  const local: Moments = {
    origin,
    area,
    x: area * cx + first * ux,
    y: area * cy + first * uy,
    xx: area * cx * cx + 2 * cx * first * ux + along * ux * ux + across * uy * uy,
    yy: area * cy * cy + 2 * cy * first * uy + along * uy * uy + across * ux * ux,
    xy: area * cx * cy + first * (cx * uy + cy * ux) + (along - across) * ux * uy,
  };
  return piece.sweep < 0 ? scaledMoments(local, -1) : local;
}

/** a - sin a cos a; by its series for small a, where the difference would cancel. */
function halfAngleExcess(a: number): number {
  if (a > 0.05) return a - Math.sin(a) * Math.cos(a);
  const b = 4 * a * a; // (2a - sin 2a) / 2 with b = (2a)^2
  return (2 * a * b * (1 - (b / 20) * (1 - (b / 42) * (1 - b / 72)))) / 12;
}
