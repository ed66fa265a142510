import type { Finding } from "../checks/finding.js";
import type { Point, Region } from "../contour/contour.js";
import type { HardwareItem } from "../hardware/item.js";
import type { Mark, SheetMaterial } from "../plates/plate.js";

/** A plate of the designer's own, described by features. All lengths mm, in the plate's own plane. */
export interface OwnPlateParameters {
  readonly id: string;
  readonly name: string;
  readonly sheet: SheetMaterial & {
    /** True when every copy must lie along the sheet's grain. */
    readonly grain?: boolean;
  };
  readonly outline: OwnOutline;
  readonly windows: readonly OwnShape[];
  readonly holes: readonly OwnHoles[];
  readonly slots: readonly OwnSlot[];
  readonly tabs: readonly OwnTab[];
  readonly laps: readonly OwnLap[];
  readonly marks: readonly Mark[];
  /** Bought parts of one copy. */
  readonly hardware: readonly {
    readonly item: string;
    readonly kind: HardwareItem["kind"];
    readonly count: number;
  }[];
  /** True when it may lie on the sheet upside down. */
  readonly mirrorable: boolean;
  readonly seats: readonly OwnSeat[];
  /** Copies in one kit that have no place in the vehicle. */
  readonly loose: number;
}

/** An outline by its shape, or as it was drawn elsewhere. */
export type OwnOutline = OwnShape | DrawnOutline;

export type OwnShape =
  /** `at` is its middle. */
  | {
      readonly kind: "rectangle";
      readonly width: number;
      readonly height: number;
      readonly radius: number;
      readonly at: Point;
    }
  | { readonly kind: "round"; readonly diameter: number; readonly at: Point }
  | { readonly kind: "polygon"; readonly corners: readonly (Point & { readonly radius: number })[] }
  | {
      readonly kind: "hull";
      readonly circles: readonly { readonly at: Point; readonly diameter: number }[];
    };

/** A region read from a drawing, as data: geometry reads no files. */
export interface DrawnOutline {
  readonly kind: "drawn";
  /** Name of the drawing, for people. */
  readonly file: string;
  /** Absent when the drawing holds no plate; the findings tell why. */
  readonly region?: Region;
  /** What was not understood, with entity and place in the drawing. */
  readonly findings: readonly Finding[];
}

/** Equal round holes in a pattern around `at`. */
export interface OwnHoles {
  readonly at: Point;
  readonly hole:
    | { readonly kind: "diameter"; readonly diameter: number }
    | { readonly kind: "screw"; readonly thread: string; readonly fit: "fine" | "medium" | "coarse" };
  readonly pattern: HolePattern;
  /** Degrees counter-clockwise about `at`. */
  readonly rotation: number;
  readonly why?: string;
}

export type HolePattern =
  | { readonly kind: "single" }
  /** Holes in a line along x, `at` in the middle. */
  | { readonly kind: "row"; readonly count: number; readonly pitch: number }
  | {
      readonly kind: "grid";
      readonly columns: number;
      readonly rows: number;
      readonly pitch: { readonly x: number; readonly y: number };
    }
  /** Holes on a circle; the first on the x axis. */
  | { readonly kind: "ring"; readonly diameter: number; readonly count: number }
  /** Two holes on each of two circles, the second pair at 90 degrees to the first. */
  | { readonly kind: "cross"; readonly diameters: readonly [number, number] };

/** A slot with round ends; `from` and `to` are the middles of the ends. */
export interface OwnSlot {
  readonly from: Point;
  readonly to: Point;
  readonly width: number;
  readonly why?: string;
}

/** A tab on a straight side of the outline; the plate it goes into gets the slot. */
export interface OwnTab {
  /** `deck`, `cheek`, the id of a bulkhead, or the id of another own plate. */
  readonly into: string;
  /** Middle of the tab on the side it stands out of. */
  readonly at: Point;
  readonly length: number;
}

/** A half-lap joint where this plate and another own plate cross at right angles. */
export interface OwnLap {
  /** Id of the other own plate. */
  readonly with: string;
}

/** Where a copy sits: the plate's origin goes to `at`, the material fills from there up, forwards or to port. */
export interface OwnSeat {
  readonly at: { readonly x: number; readonly y: number; readonly z: number };
  /**
   * `flat`: its x forward and y to port, like the deck; `across`: its x to port and y up, like a bulkhead; `along`: its x
   * forward and y up, like a cheek.
   */
  readonly lies: "flat" | "across" | "along";
  /** Degrees counter-clockwise in its own plane before it is put there. */
  readonly turn: number;
  /** True when this copy is the mirror image, left for right, before it is turned. */
  readonly mirrored: boolean;
}
