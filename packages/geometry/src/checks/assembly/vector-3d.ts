import type { Vector } from "../../plates/plate.js";

export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** a + t b. */
export function along(a: Vector, b: Vector, t: number): Vector {
  return [a[0] + t * b[0], a[1] + t * b[1], a[2] + t * b[2]];
}

export function minus(a: Vector, b: Vector): Vector {
  return along(a, b, -1);
}

export function norm(a: Vector): number {
  return Math.hypot(a[0], a[1], a[2]);
}

export function unit(a: Vector): Vector {
  const length = norm(a);
  return [a[0] / length, a[1] / length, a[2] / length];
}
