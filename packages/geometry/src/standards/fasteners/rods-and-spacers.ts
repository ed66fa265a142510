import { lookUp, type Table } from "../table.js";

/** Threaded rod as it is sold; mm. */
export interface RodStock {
  /** Cut studs. */
  readonly cutLengths: readonly number[];
  /** Long bars to saw from. */
  readonly barLengths: readonly number[];
}

/** Plain round spacer without thread; mm. */
export interface RoundSpacer {
  readonly bore: number;
  readonly outside: number;
  readonly lengths: readonly number[];
}

/** Hexagon spacer with thread; mm. */
export interface HexSpacer {
  /** Usual width across flats. */
  readonly acrossFlats: number;
  /** Other widths that are sold. */
  readonly otherFlats: readonly number[];
  readonly lengths: readonly number[];
}

/** Threaded rod, DIN 976-1. Throws UnknownEntry. */
export function rodStock(thread: string): RodStock {
  return lookUp(rods, thread);
}

/** Plain round spacer for a screw of that thread. Throws UnknownEntry. */
export function roundSpacer(thread: string): RoundSpacer {
  return lookUp(roundSpacers, thread);
}

/** Hexagon spacer of that thread. Throws UnknownEntry. */
export function hexSpacer(thread: string): HexSpacer {
  return lookUp(hexSpacers, thread);
}

const cutLengths = [
  25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 90, 100, 110, 120, 130, 140, 150, 160, 170, 180, 190, 200,
];
const smallBars: RodStock = { cutLengths, barLengths: [250, 500, 1000] };
const bars: RodStock = { cutLengths, barLengths: [1000, 2000, 3000] };

export const rods: Table<RodStock> = {
  id: "din-976-1",
  title: "Threaded rods (DIN 976-1)",
  source:
    "DIN 976-1: cut lengths to 130 as the standard is reproduced; longer ones and bar lengths from memory",
  basis: "from memory",
  unit: "mm",
  note: "Length tolerance is printed as about +-0.4 to +-0.8 in one place and -0/+3 in another: saw rods to a drawn length.",
  key: "thread",
  columns: ["cutLengths", "barLengths"],
  rows: {
    M2: smallBars,
    "M2.5": smallBars,
    M3: bars,
    M4: bars,
    M5: bars,
    M6: bars,
    M8: bars,
    M10: bars,
    M12: bars,
  },
};

const roundLengths = [3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 18, 20, 25, 30, 35, 40, 45, 50, 60];

export const roundSpacers: Table<RoundSpacer> = {
  id: "round-spacers",
  title: "Plain round spacers",
  source: "Common practice, from memory; no standard fixes spacers",
  basis: "common practice",
  unit: "mm",
  note: "Bore as ISO 273 fine. Outside diameters differ between sellers by 1 to 2: measure before cutting.",
  key: "thread",
  columns: ["bore", "outside", "lengths"],
  rows: {
    M2: { bore: 2.2, outside: 4, lengths: roundLengths },
    "M2.5": { bore: 2.7, outside: 5, lengths: roundLengths },
    M3: { bore: 3.2, outside: 6, lengths: roundLengths },
    M4: { bore: 4.3, outside: 8, lengths: roundLengths },
    M5: { bore: 5.3, outside: 10, lengths: roundLengths },
    M6: { bore: 6.4, outside: 12, lengths: roundLengths },
    M8: { bore: 8.4, outside: 16, lengths: roundLengths },
  },
};

const hexLengths = [5, 6, 8, 10, 12, 15, 18, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 100];

export const hexSpacers: Table<HexSpacer> = {
  id: "hex-spacers",
  title: "Hexagon spacers",
  source: "Common practice, from memory; no standard fixes spacers",
  basis: "common practice",
  unit: "mm",
  key: "thread",
  columns: ["acrossFlats", "otherFlats", "lengths"],
  rows: {
    M2: { acrossFlats: 4, otherFlats: [], lengths: hexLengths },
    "M2.5": { acrossFlats: 5, otherFlats: [], lengths: hexLengths },
    M3: { acrossFlats: 5.5, otherFlats: [5, 6], lengths: hexLengths },
    M4: { acrossFlats: 7, otherFlats: [], lengths: hexLengths },
    M5: { acrossFlats: 8, otherFlats: [], lengths: hexLengths },
    M6: { acrossFlats: 10, otherFlats: [], lengths: hexLengths },
  },
};
