import { lookUp, numberTable, type Table } from "../table.js";

/** A flat washer; mm. */
export interface Washer {
  /** Least bore. */
  readonly bore: number;
  /** Largest outside diameter. */
  readonly outside: number;
  readonly thickness: number;
  readonly thicknessMax: number;
}

/** Plain washer, normal series, ISO 7089. Throws UnknownEntry. */
export function plainWasher(thread: string): Washer {
  return lookUp(plainWashers, thread);
}

/** Large washer (outside about three times the thread), ISO 7093-1 (M3 and larger). Throws UnknownEntry. */
export function largeWasher(thread: string): Washer {
  return lookUp(largeWashers, thread);
}

/** An open parts file prints a bore of 10 for M10; 10.5 is right, as for ISO 273 fine. */
export const plainWashers: Table<Washer> = numberTable(
  {
    id: "iso-7089",
    title: "Plain washers, normal series (ISO 7089)",
    source: "ISO 7089:2000 table 1",
    basis: "standard",
    unit: "mm",
  },
  "thread",
  ["bore", "outside", "thickness", "thicknessMax"],
  {
    M2: [2.2, 5, 0.3, 0.35],
    "M2.5": [2.7, 6, 0.5, 0.55],
    M3: [3.2, 7, 0.5, 0.55],
    M4: [4.3, 9, 0.8, 0.9],
    M5: [5.3, 10, 1, 1.1],
    M6: [6.4, 12, 1.6, 1.8],
    M8: [8.4, 16, 1.6, 1.8],
    M10: [10.5, 20, 2, 2.2],
    M12: [13, 24, 2.5, 2.7],
  },
);

/**
 * M5: the largest thickness is printed as 1.4, which does not fit the remembered nominal of 1.0 (1.1 would). The
 * larger is kept: it can only make a rod or screw longer, never too short.
 */
export const largeWashers: Table<Washer> = numberTable(
  {
    id: "iso-7093-1",
    title: "Large washers (ISO 7093-1)",
    source: "ISO 7093-1:2000 table 1; nominal thickness from memory",
    basis: "from memory",
    unit: "mm",
    note: "Bore, outside and thicknessMax as the standard is reproduced; thickness from memory; M5 thicknessMax is the larger of two doubtful values.",
  },
  "thread",
  ["bore", "outside", "thickness", "thicknessMax"],
  {
    M3: [3.2, 9, 0.8, 0.9],
    M4: [4.3, 12, 1, 1.1],
    M5: [5.3, 15, 1, 1.4],
    M6: [6.4, 18, 1.6, 1.8],
    M8: [8.4, 24, 2, 2.2],
    M10: [10.5, 30, 2.5, 2.7],
    M12: [13, 37, 3, 3.3],
  },
);
