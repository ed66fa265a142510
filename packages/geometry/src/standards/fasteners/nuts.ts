import { extended, lookUp, numberTable, type Table } from "../table.js";

/** A hexagon nut; mm. */
export interface Nut {
  /** Largest width across flats. */
  readonly acrossFlats: number;
  /**
   * Largest width across corners, 2/sqrt(3) times the largest flats: the standards limit corners only from below, so
   * this sharp hexagon is what a turning nut must clear.
   */
  readonly cornersMax: number;
  readonly heightMax: number;
}

export interface HexNut extends Nut {
  readonly acrossFlatsMin: number;
  readonly cornersMin: number;
  readonly heightMin: number;
}

/** Hexagon nut, style 1, ISO 4032. Throws UnknownEntry. */
export function hexNut(thread: string): HexNut {
  return lookUp(hexNuts, thread);
}

/** Thin hexagon nut, ISO 4035. Throws UnknownEntry. */
export function thinNut(thread: string): Nut {
  return lookUp(thinNuts, thread);
}

/** Prevailing torque hexagon nut with plastic ring, ISO 7040 (M3 and larger), from memory. Throws UnknownEntry. */
export function lockNut(thread: string): Nut {
  return lookUp(lockNuts, thread);
}

/** The sharp corner of a hexagon from its width across flats. */
function corners(row: { readonly acrossFlats: number }): { readonly cornersMax: number } {
  return { cornersMax: (2 / Math.sqrt(3)) * row.acrossFlats };
}

/**
 * Nuts to DIN 934, lower (M5 4.0, M6 5.0) and with other flats (M10 17, M12 19), are still sold, and some charts
 * print them under this heading. The ISO nut is the higher one, so a rod long enough for it suits both.
 */
export const hexNuts: Table<HexNut> = extended(
  numberTable(
    {
      id: "iso-4032",
      title: "Hexagon nuts, style 1 (ISO 4032)",
      source: "ISO 4032:2001 table 1; cornersMax computed as 2/sqrt(3) x acrossFlats",
      basis: "standard",
      unit: "mm",
      note: "Nuts to DIN 934 are still sold: lower, and 17 and 19 across flats for M10 and M12.",
    },
    "thread",
    ["acrossFlats", "acrossFlatsMin", "cornersMin", "heightMax", "heightMin"],
    {
      M2: [4, 3.82, 4.32, 1.6, 1.35],
      "M2.5": [5, 4.82, 5.45, 2, 1.75],
      M3: [5.5, 5.32, 6.01, 2.4, 2.15],
      M4: [7, 6.78, 7.66, 3.2, 2.9],
      M5: [8, 7.78, 8.79, 4.7, 4.4],
      M6: [10, 9.78, 11.05, 5.2, 4.9],
      M8: [13, 12.73, 14.38, 6.8, 6.44],
      M10: [16, 15.73, 17.77, 8.4, 8.04],
      M12: [18, 17.73, 20.03, 10.8, 10.37],
    },
  ),
  ["cornersMax"],
  corners,
);

/** Some parts libraries print 17 and 19 flats for M10 and M12 here: those are DIN 439 nuts. */
export const thinNuts: Table<Nut> = extended(
  numberTable(
    {
      id: "iso-4035",
      title: "Thin hexagon nuts (ISO 4035)",
      source:
        "ISO 4035 table 1; flats of M10 and M12 from memory; cornersMax computed as 2/sqrt(3) x acrossFlats",
      basis: "standard",
      unit: "mm",
    },
    "thread",
    ["acrossFlats", "heightMax"],
    {
      M2: [4, 1.2],
      "M2.5": [5, 1.6],
      M3: [5.5, 1.8],
      M4: [7, 2.2],
      M5: [8, 2.7],
      M6: [10, 3.2],
      M8: [13, 4],
      M10: [16, 5],
      M12: [18, 6],
    },
  ),
  ["cornersMax"],
  corners,
);

export const lockNuts: Table<Nut> = extended(
  numberTable(
    {
      id: "iso-7040",
      title: "Lock nuts with plastic ring, style 1 (ISO 7040)",
      source: "ISO 7040 table 1, from memory; cornersMax computed as 2/sqrt(3) x acrossFlats",
      basis: "from memory",
      unit: "mm",
      note: "Lock nuts to DIN 985 are lower: M3 4, M4 5, M5 5, M6 6, M8 8 (from memory).",
    },
    "thread",
    ["acrossFlats", "heightMax"],
    {
      M3: [5.5, 4.5],
      M4: [7, 6],
      M5: [8, 6.8],
      M6: [10, 8],
      M8: [13, 9.5],
      M10: [16, 11.9],
      M12: [18, 14.9],
    },
  ),
  ["cornersMax"],
  corners,
);
