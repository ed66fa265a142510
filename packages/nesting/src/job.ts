import type { Contour, Placement, Region, Rotations } from "@keelcut/geometry";

/** One kind of plate to be laid on sheets. */
export interface NestPart {
  readonly id: string;
  /** Nominal region, mm; openings are usable for other plates. */
  readonly region: Region;
  /** Copies wanted. */
  readonly demand: number;
  readonly rotations: Rotations;
  /** May be laid upside down. */
  readonly mirrorable: boolean;
  /** Worth of one copy when a sheet is to be filled with the most valuable plates; its area when absent. */
  readonly value?: number;
}

/** One kind of sheet that can be cut. All stock of a job has the same material and thickness. */
export interface Stock {
  readonly id: string;
  /** Outline of the whole sheet or offcut, counter-clockwise, mm; all coordinates >= 0. */
  readonly outline: Contour;
  /** Areas inside the outline where nothing may lie: clamps, defects. */
  readonly keepOuts: readonly Contour[];
  /** Pieces that can be had; `"unlimited"` when more can be bought. */
  readonly available: number | "unlimited";
  /** Cost of one piece in any one unit; 0 for an offcut at hand. */
  readonly cost: number;
}

/** How hard to search: whichever ends first. Steps give the same answer on every machine, seconds do not. */
export interface Effort {
  readonly seconds?: number;
  readonly steps?: number;
}

export interface NestJob {
  readonly parts: readonly NestPart[];
  readonly stock: readonly Stock[];
  /** Least distance between any two plates, and between a plate and a keep-out, mm. */
  readonly clearance: number;
  /** Least distance between a plate and the sheet's outline, mm. */
  readonly edgeMargin: number;
  /** Largest distance between a true arc and the chords the search packs with; always on the safe side, mm. */
  readonly chordError: number;
  readonly seed: number;
  readonly effort: Effort;
}

/** One copy of a part on a sheet, in the sheet's coordinates. */
export interface PlacedPart extends Placement {
  readonly part: string;
}

/** One layout on one kind of stock, cut `times` times. */
export interface Sheet {
  readonly stock: string;
  readonly times: number;
  readonly placements: readonly PlacedPart[];
}

/** Copies that could not be laid, and why. */
export interface Unplaced {
  readonly part: string;
  readonly count: number;
  readonly reason: "too-large" | "stock-used-up";
  /** One sentence with the numbers. */
  readonly message: string;
}

export interface NestResult {
  readonly sheets: readonly Sheet[];
  readonly unplaced: readonly Unplaced[];
  /** Total stock cost of `sheets`. */
  readonly cost: number;
  /** Net area of the placed plates over the area of the sheets used, 0..1. */
  readonly yield: number;
  /** Search steps done, for a repeatable rerun. */
  readonly steps: number;
}

/** What the caller may hear and say while a search runs. */
export interface NestControl {
  /** Called with the best complete result so far. */
  readonly onProgress?: (best: NestResult) => void;
  readonly signal?: AbortSignal;
}
