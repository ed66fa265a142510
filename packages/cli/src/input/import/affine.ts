import type { Point } from "@keelcut/geometry";

/** x' = a x + c y + e, y' = b x + d y + f, in the order SVG's `matrix` has. */
export type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const identity: Affine = [1, 0, 0, 1, 0, 0];

/** First `inner`, then `outer`. */
export function compose(outer: Affine, inner: Affine): Affine {
  const [a, b, c, d, e, f] = outer;
  const [p, q, r, s, t, u] = inner;
  return [a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f];
}

export function composeAll(...steps: readonly Affine[]): Affine {
  return steps.reduce(compose, identity);
}

export function applyTo([a, b, c, d, e, f]: Affine, { x, y }: Point): Point {
  return { x: a * x + c * y + e, y: b * x + d * y + f };
}

/** A direction or difference: the shift left out. */
export function applyToDirection([a, b, c, d]: Affine, { x, y }: Point): Point {
  return { x: a * x + c * y, y: b * x + d * y };
}

export function shift(x: number, y: number): Affine {
  return [1, 0, 0, 1, x, y];
}

export function stretch(x: number, y: number): Affine {
  return [x, 0, 0, y, 0, 0];
}

/** Counter-clockwise by an angle in radians when y runs up; quarter turns are exact. */
export function turn(angle: number): Affine {
  const quarters = angle / (Math.PI / 2);
  const exact = Math.abs(quarters - Math.round(quarters)) < 1e-12;
  const cos = exact ? Math.round(Math.cos(angle)) : Math.cos(angle);
  const sin = exact ? Math.round(Math.sin(angle)) : Math.sin(angle);
  return [cos, sin, -sin, cos, 0, 0];
}

/** Area factor; negative when the map mirrors. */
export function determinant([a, b, c, d]: Affine): number {
  return a * d - b * c;
}

/** True when circles stay circles: turned, shifted, mirrored and scaled alike in all directions. */
export function keepsCircles([a, b, c, d]: Affine): boolean {
  const size = Math.hypot(a, b);
  return (
    Math.abs(size - Math.hypot(c, d)) <= 1e-9 * size &&
    Math.abs(a * c + b * d) <= 1e-9 * size * Math.hypot(c, d)
  );
}
