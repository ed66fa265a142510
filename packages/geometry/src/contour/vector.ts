import type { Point } from "./contour.js";

/** The point `distance` away from `origin` in the direction `angle` (radians, counter-clockwise from +x). */
export function polar(origin: Point, distance: number, angle: number): Point {
  return { x: origin.x + distance * Math.cos(angle), y: origin.y + distance * Math.sin(angle) };
}

export function distanceBetween(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}

export function between(a: Point, b: Point, t: number): Point {
  return { x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t };
}

/** Twice the signed area of the triangle a, b, c: positive when c lies left of the line from a to b. */
export function turn(a: Point, b: Point, c: Point): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/** `angle` brought into 0 <= angle < 2 pi. */
export function positiveAngle(angle: number): number {
  const rest = angle % (2 * Math.PI);
  const positive = rest < 0 ? rest + 2 * Math.PI : rest;
  return positive >= 2 * Math.PI ? 0 : positive;
}

/** Throws RangeError when a number of the point is NaN or infinite. */
export function refuseNonFinite(point: Point, what: string): void {
  if (!Number.isFinite(point.x) || !Number.isFinite(point.y)) {
    throw new RangeError(`${what} (${point.x}, ${point.y}): both coordinates must be finite numbers`);
  }
}
