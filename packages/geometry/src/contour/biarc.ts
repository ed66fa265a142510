import type { Point, Vertex } from "./contour.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween } from "./vector.js";

/** A point of a curve and its direction there (any length). */
export interface CurvePoint {
  readonly at: Point;
  readonly tangent: Point;
}

/**
 * Two arcs that leave one curve point and arrive at another along its directions, joined smoothly; one arc or line where one
 * does. The vertices before the end point; undefined when the points coincide or the directions leave no finite arcs.
 *
 * Both end tangents get the same length d, from |P1 - P0 - d (T0 + T1)| = 2 d
 * (Bolton, Biarc curves, Computer-Aided Design 7(2), 1975, with his free ratio set to 1).
 */
export function biarc(start: CurvePoint, end: CurvePoint): Vertex[] | undefined {
  const [t0, t1] = [unit(start.tangent), unit(end.tangent)];
  const vx = end.at.x - start.at.x;
  const vy = end.at.y - start.at.y;
  const square = vx * vx + vy * vy;
  if (!(square > 0)) return undefined;
  const along = vx * (t0.x + t1.x) + vy * (t0.y + t1.y);
  const spread = 2 * (1 - (t0.x * t1.x + t0.y * t1.y));
  const reach =
    spread > 1e-12 ? (Math.sqrt(along * along + spread * square) - along) / spread : square / (2 * along);
  if (!(reach > 0 && Number.isFinite(reach))) return undefined;
  const joint = {
    x: (start.at.x + end.at.x + reach * (t0.x - t1.x)) / 2,
    y: (start.at.y + end.at.y + reach * (t0.y - t1.y)) / 2,
  };
  const first = chordTurn(t0, { x: joint.x - start.at.x, y: joint.y - start.at.y });
  const second = chordTurn({ x: end.at.x - joint.x, y: end.at.y - joint.y }, t1);
  const whole = asOneArc(start.at, joint, end.at, first, second);
  if (whole !== undefined) return [{ ...whole }];
  return [
    { x: start.at.x, y: start.at.y, bulge: Math.tan(first / 2) },
    { ...joint, bulge: Math.tan(second / 2) },
  ];
}

/** The two arcs as one, when they have the same curvature. Angles are between chord and tangent: half an arc's sweep. */
function asOneArc(from: Point, joint: Point, to: Point, first: number, second: number): Vertex | undefined {
  const [a, b] = [distanceBetween(from, joint), distanceBetween(joint, to)];
  // Sagitta difference of the two arcs if they had each other's curvature.
  if (Math.abs(Math.sin(first) / a - Math.sin(second) / b) * (a + b) ** 2 > TOLERANCE / 100) return undefined;
  const sweep = 2 * (first + second);
  if (Math.abs(sweep) > Math.PI) return undefined;
  const bulge = Math.tan(sweep / 4);
  return { x: from.x, y: from.y, bulge: Math.abs(bulge) * (a + b) < TOLERANCE / 100 ? 0 : bulge };
}

function chordTurn(from: Point, to: Point): number {
  return Math.atan2(from.x * to.y - from.y * to.x, from.x * to.x + from.y * to.y);
}

function unit(vector: Point): Point {
  const length = Math.hypot(vector.x, vector.y);
  return { x: vector.x / length, y: vector.y / length };
}
