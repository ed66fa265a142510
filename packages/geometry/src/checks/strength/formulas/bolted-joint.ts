/** Bearing stress on the wall of a hole, d across and t deep: F / (d t) (Shigley, bolted joints loaded in shear). */
export function bearing(F: number, d: number, t: number): number {
  return F / (d * t);
}

/** Shear of the material between a hole and an edge a from its centre, on two planes: F / (2 a t). */
export function edgeShear(F: number, a: number, t: number): number {
  return F / (2 * a * t);
}

/** Tension in the section that n holes leave of a plate w wide: F / ((w - n d) t). */
export function netTension(F: number, w: number, n: number, d: number, t: number): number {
  return F / ((w - n * d) * t);
}

/** Shear of n bolts of that area: F / (n A). */
export function boltShear(F: number, n: number, area: number): number {
  return F / (n * area);
}

/**
 * Tightening torque, N m, for a preload F, N, on a screw of diameter d, mm: T = K F d with K = 0.2 (Shigley, relating bolt
 * torque to bolt tension).
 */
export function tighteningTorque(F: number, d: number): number {
  return (0.2 * F * d) / 1000;
}
