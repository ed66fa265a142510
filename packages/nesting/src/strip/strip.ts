import type { Rotations } from "@keelcut/geometry";
import type { Polygon } from "../nofit/polygon.js";

/** One kind of item for a strip. */
export interface StripItem {
  readonly polygon: Polygon;
  readonly demand: number;
  readonly rotations: Rotations;
  /** May also be laid mirrored; false when absent. */
  readonly mirrorable?: boolean;
}

/** A strip of fixed height and open length, and what is to be laid on it. Lengths in any one unit. */
export interface Strip {
  readonly height: number;
  readonly items: readonly StripItem[];
}

/** Where one copy lies: its polygon is mirrored if asked (x -> -x), rotated, then moved by (x, y). */
export interface StripPlacement {
  /** Number of the item kind in the strip's list. */
  readonly item: number;
  readonly x: number;
  readonly y: number;
  /** Degrees, counter-clockwise. */
  readonly rotation: number;
  readonly mirrored: boolean;
}

export interface StripResult {
  readonly length: number;
  /** Area of the items over height * length, 0 to 1. */
  readonly density: number;
  readonly placements: readonly StripPlacement[];
  /** Placement searches done. A rerun given as many steps is repeatable, and about as good as one limited by seconds. */
  readonly steps: number;
  /** Evaluations of a placement against all others. */
  readonly evaluations: number;
}
