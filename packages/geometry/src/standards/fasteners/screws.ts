import { extended, lookUp, numberTable, type Table } from "../table.js";

/** Head, drive and lengths of a screw; mm. */
export interface Screw {
  /** Largest head diameter; for cap screws with knurled head. */
  readonly headDiameterMax: number;
  readonly headHeightMax: number;
  /** Hexagon key, across flats. */
  readonly key: number;
  /** Preferred lengths made in this size, under the head to the point. */
  readonly lengths: readonly number[];
}

export interface CapScrew extends Screw {
  readonly headDiameterMaxPlain: number;
  readonly headDiameterMin: number;
  readonly headHeightMin: number;
  /** Least depth of the key socket. */
  readonly socketDepthMin: number;
  /** Length of thread on screws longer than it. */
  readonly threadLength: number;
}

/** Hexagon socket cap screw, ISO 4762. Throws UnknownEntry. */
export function capScrew(thread: string): CapScrew {
  return lookUp(capScrews, thread);
}

/** Hexagon socket button head screw, ISO 7380-1 (M3 and larger). Throws UnknownEntry. */
export function buttonScrew(thread: string): Screw {
  return lookUp(buttonScrews, thread);
}

/** ISO 4762 preferred lengths. 14, 18 and 22 are sold but are not in the row. */
const capLengths = [
  2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120,
];
const buttonLengths = [6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90];

/**
 * `headDiameterMax` is the knurled head, 0.18 to 0.27 larger than the plain head that most charts print: a counterbore
 * or a neighbour must clear it. Charts that print a smaller least head (M3 5.20) or a deeper socket (M5 2.7) differ
 * from the standard's limits used here.
 */
export const capScrews: Table<CapScrew> = extended(
  numberTable(
    {
      id: "iso-4762",
      title: "Hexagon socket cap screws (ISO 4762)",
      source: "ISO 4762:2004 table 1",
      basis: "standard",
      unit: "mm",
      note: "headDiameterMax is the knurled head. Lengths are the preferred row cut to the range of each size.",
    },
    "thread",
    [
      "headDiameterMax",
      "headDiameterMaxPlain",
      "headDiameterMin",
      "headHeightMax",
      "headHeightMin",
      "key",
      "socketDepthMin",
      "threadLength",
      "shortest",
      "longest",
    ],
    {
      M2: [3.98, 3.8, 3.62, 2, 1.86, 1.5, 1, 16, 3, 20],
      "M2.5": [4.68, 4.5, 4.32, 2.5, 2.36, 2, 1.1, 17, 4, 25],
      M3: [5.68, 5.5, 5.32, 3, 2.86, 2.5, 1.3, 18, 5, 30],
      M4: [7.22, 7, 6.78, 4, 3.82, 3, 2, 20, 6, 40],
      M5: [8.72, 8.5, 8.28, 5, 4.82, 4, 2.5, 22, 8, 50],
      M6: [10.22, 10, 9.78, 6, 5.7, 5, 3, 24, 8, 60],
      M8: [13.27, 13, 12.73, 8, 7.64, 6, 4, 28, 10, 80],
      M10: [16.27, 16, 15.73, 10, 9.64, 8, 5, 32, 16, 100],
      M12: [18.27, 18, 17.73, 12, 11.57, 10, 6, 36, 20, 120],
    },
  ),
  ["lengths"],
  (row) => ({ lengths: within(capLengths, row.shortest, row.longest) }),
);

export const buttonScrews: Table<Screw> = extended(
  numberTable(
    {
      id: "iso-7380-1",
      title: "Hexagon socket button head screws (ISO 7380-1)",
      source: "ISO 7380-1:2011 table 1; nominal key sizes from memory",
      basis: "standard",
      unit: "mm",
      note: "M2 and M2.5 button heads are sold but are outside the standard.",
    },
    "thread",
    ["headDiameterMax", "headHeightMax", "key", "shortest", "longest"],
    {
      M3: [5.7, 1.65, 2, 6, 30],
      M4: [7.6, 2.2, 2.5, 6, 40],
      M5: [9.5, 2.75, 3, 8, 50],
      M6: [10.5, 3.3, 4, 10, 60],
      M8: [14, 4.4, 5, 12, 80],
      M10: [17.5, 5.5, 6, 16, 90],
      M12: [21, 6.6, 8, 20, 90],
    },
  ),
  ["lengths"],
  (row) => ({ lengths: within(buttonLengths, row.shortest, row.longest) }),
);

function within(lengths: readonly number[], shortest: number, longest: number): readonly number[] {
  return lengths.filter((length) => length >= shortest && length <= longest);
}
