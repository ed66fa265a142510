import type { Contour, Region } from "../contour/contour.js";
import { clockwise, counterClockwise } from "../contour/orient.js";
import { isSheetMaterial, sheetMaterial } from "../standards/index.js";
import type { Feature, FeatureKind, Mark, Plate, Rotations, Seat, SheetMaterial } from "./plate.js";

/** One opening to be cut, and why it is there. */
export interface Cut {
  readonly contour: Contour;
  readonly kind: Exclude<FeatureKind, "outline">;
  readonly name: string;
  readonly why: string;
}

/** What a template says about its plate; `composePlate` turns it into a plate. */
export interface PlateDraft {
  readonly id: string;
  readonly name: string;
  readonly template: string;
  readonly sheet: SheetMaterial & { readonly grain?: boolean };
  readonly outline: Contour;
  readonly outlineWhy: string;
  readonly cuts: readonly Cut[];
  readonly marks?: readonly Mark[];
  readonly mirrorable: boolean;
  readonly made?: "cut" | "printed";
  readonly seats: readonly Seat[];
  /** Copies in one kit that have no place in the vehicle. */
  readonly loose?: number;
}

/** Puts outline, openings and their reasons together; orients the contours by the rule of `Region`. */
export function composePlate(draft: PlateDraft): Plate {
  const region: Region = {
    outer: counterClockwise(draft.outline),
    openings: draft.cuts.map((cut) => clockwise(cut.contour)),
  };
  const features: Feature[] = [
    { contour: "outline", kind: "outline", name: "outline", why: draft.outlineWhy },
    ...draft.cuts.map(
      (cut, index): Feature => ({ contour: index, kind: cut.kind, name: cut.name, why: cut.why }),
    ),
  ];
  return {
    id: draft.id,
    name: draft.name,
    template: draft.template,
    sheet: sheetOf(draft.sheet),
    count: draft.seats.length + (draft.loose ?? 0),
    region,
    features,
    marks: draft.marks ?? [],
    rotations: rotationsFor(draft.sheet),
    mirrorable: draft.mirrorable,
    made: draft.made ?? "cut",
    seats: draft.seats,
  };
}

function sheetOf({ material, thickness, measured, foam }: SheetMaterial): SheetMaterial {
  return {
    material,
    thickness,
    ...(measured === undefined ? {} : { measured }),
    ...(foam === undefined ? {} : { foam }),
  };
}

/** Along the grain both ways round; freely without one. */
function rotationsFor({ material, grain }: PlateDraft["sheet"]): Rotations {
  return (grain ?? (isSheetMaterial(material) && sheetMaterial(material).grain)) ? [0, 180] : "any";
}
