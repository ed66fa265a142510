import type { Vector } from "../../plates/plate.js";

/** One part as the trim estimate sees it. */
export interface Body {
  /** Group in the finding, for example `plates of PE-HD`. */
  readonly group: string;
  /** g, with the range that its material's density allows. */
  readonly mass: number;
  readonly massMin: number;
  readonly massMax: number;
  /** Water displaced at depth, mm3. */
  readonly volume: number;
  /** Centre in vehicle axes, mm. */
  readonly at: Vector;
  readonly source: string;
}

/** Everything whose mass is known, and what is not. */
export interface KnownBodies {
  readonly bodies: readonly Body[];
  /** Parts of unknown mass, for people: `3 x motor m2216 (motors.m2216.mass)`. */
  readonly unknown: readonly string[];
  /** Parts that may lie anywhere in the vehicle, for people. */
  readonly placeless: readonly string[];
}

/** g of a volume in mm3 at a density in kg/m3. */
export function grams(volume: number, density: number): number {
  return volume * density * 1e-6;
}

/** A body of one material without a range. */
export function solid(group: string, volume: number, density: number, at: Vector, source: string): Body {
  const mass = grams(volume, density);
  return { group, mass, massMin: mass, massMax: mass, volume, at, source };
}
