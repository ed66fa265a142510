import { lookUp, type Table } from "./table.js";

/** A nylon cable tie and the slot it passes through; mm, N. */
export interface CableTie {
  readonly width: number;
  readonly thickness: number;
  readonly loopStrength: number;
  readonly lengths: readonly number[];
  /** Largest bundle diameter for each of `lengths`. */
  readonly bundles: readonly number[];
  readonly slotWidth: number;
  readonly slotHeight: number;
}

/** Cable tie by width, mm (2.5, 3.6, 4.8, 7.6). Throws UnknownEntry. */
export function cableTie(width: number): CableTie {
  return lookUp(cableTies, String(width));
}

/**
 * Nylon takes up water and loses about a third of its loop strength; only the black, ultraviolet-stabilised kind
 * belongs outdoors (from memory). Bundle diameters follow (length - 35..45) / pi; slots leave 1 mm across and 0.8 mm
 * through.
 */
export const cableTies: Table<CableTie> = {
  id: "cable-ties",
  title: "Cable ties",
  source:
    "Common practice: sizes and loop strength as catalogues agree; bundle diameters and slots from memory. IEC 62275 classes strength, not sizes",
  basis: "common practice",
  unit: "mm; loopStrength N",
  key: "width",
  columns: ["thickness", "loopStrength", "lengths", "bundles", "slotWidth", "slotHeight"],
  rows: {
    "2.5": {
      width: 2.5,
      thickness: 1,
      loopStrength: 79,
      lengths: [80, 100, 150, 200],
      bundles: [11, 22, 35, 50],
      slotWidth: 3.2,
      slotHeight: 1.8,
    },
    "3.6": {
      width: 3.6,
      thickness: 1.2,
      loopStrength: 178,
      lengths: [150, 200, 300, 370],
      bundles: [35, 50, 80, 102],
      slotWidth: 4.5,
      slotHeight: 2,
    },
    "4.8": {
      width: 4.8,
      thickness: 1.3,
      loopStrength: 218,
      lengths: [200, 250, 300, 370],
      bundles: [50, 65, 80, 102],
      slotWidth: 5.8,
      slotHeight: 2.2,
    },
    "7.6": {
      width: 7.6,
      thickness: 1.6,
      loopStrength: 533,
      lengths: [200, 300, 370, 450],
      bundles: [50, 80, 102, 130],
      slotWidth: 8.8,
      slotHeight: 2.6,
    },
  },
};
