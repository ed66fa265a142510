import type { Contour, Path, Point, Region } from "../contour/contour.js";

/** A sheet material of one thickness, as the plates use it. */
export interface SheetMaterial {
  /** Name in the table of sheet materials, for example `PE-HD`. */
  readonly material: string;
  /** Nominal thickness, mm: it names the stock. */
  readonly thickness: number;
  /** Thickness measured on the sheet at hand, mm. */
  readonly measured?: number;
  /** Grade of a foam, a name in the table of foams, for example `XPS V`. */
  readonly foam?: string;
}

/** Angles a plate may be turned by on a sheet, degrees counter-clockwise; `"any"` when the material has no grain. */
export type Rotations = "any" | readonly number[];

/** What a contour of a plate is there for: shown on the page and used by the checks. */
export interface Feature {
  /** `outline`, or the index of the opening in `region.openings`. */
  readonly contour: "outline" | number;
  readonly kind: FeatureKind;
  /** Short name, for example `rod hole`. */
  readonly name: string;
  /** Why it is there, one sentence. */
  readonly why: string;
}

export type FeatureKind =
  | "outline"
  | "screw-hole"
  | "rod-hole"
  | "tab-slot"
  | "tie-slot"
  | "window"
  | "relief"
  | "hole"
  | "slot";

/** Something drawn on the plate and not cut through: a line, or a text set in single strokes by the writers. */
export type Mark =
  | { readonly kind: "line"; readonly path: Path }
  | {
      readonly kind: "text";
      readonly text: string;
      /** Start of the base line; its end where `atEnd` is true. */
      readonly at: Point;
      /** True for the text of a mirrored plate, which ends where that of the plate begins. */
      readonly atEnd?: boolean;
      /** Height of a capital letter, mm. */
      readonly height: number;
      /** Degrees counter-clockwise. */
      readonly rotation: number;
    };

/**
 * Where one copy of a plate sits in the vehicle (x forward, y to port, z up, origin at deck centre, top of deck z = 0).
 *
 * The plate's point (x, y) goes to origin + x*u + y*v; the material fills 0..thickness along u cross v, thickness as measured.
 */
export interface Seat {
  readonly origin: Vector;
  readonly u: Vector;
  readonly v: Vector;
}

export type Vector = readonly [number, number, number];

/** A flat part cut from one sheet material of one thickness. Nominal size: compensation happens when files are written. */
export interface Plate {
  /** Unique in the frame, safe in a file name, for example `carrier-front-port`. */
  readonly id: string;
  readonly name: string;
  readonly template: string;
  readonly sheet: SheetMaterial;
  /** Copies in one kit: one for each seat, and those of own plates that have no place in the vehicle. */
  readonly count: number;
  readonly region: Region;
  readonly features: readonly Feature[];
  readonly marks: readonly Mark[];
  readonly rotations: Rotations;
  /** True when the plate may be laid on the sheet upside down. */
  readonly mirrorable: boolean;
  /** `cut` from stock, or a `printed` 1:1 template that never goes on a sheet. */
  readonly made: "cut" | "printed";
  readonly seats: readonly Seat[];
}

/** The outline or one opening of a plate, by the reference a feature holds. */
export function featureContour(plate: Plate, feature: Feature): Contour {
  if (feature.contour === "outline") return plate.region.outer;
  const opening = plate.region.openings[feature.contour];
  if (opening === undefined) {
    throw new RangeError(
      `plate ${plate.id}: feature ${feature.name} names opening ${feature.contour}, which does not exist`,
    );
  }
  return opening;
}
