import { lookUp, numberTable, type Table } from "../table.js";

export type HoleSeries = "fine" | "medium" | "coarse";

/** Diameter of the clearance hole for a screw or rod, mm, by ISO 273. Throws UnknownEntry. */
export function clearanceHole(thread: string, series: HoleSeries): number {
  return lookUp(clearanceHoles, thread)[series];
}

/**
 * M12 is 13.5 / 14.5 by ISO 273. Parts libraries and charts that print 14 / 15 carry the rows of the older national
 * standard that ISO 273 replaced.
 */
export const clearanceHoles: Table<Readonly<Record<HoleSeries, number>>> = numberTable(
  {
    id: "iso-273",
    title: "Clearance holes for screws (ISO 273)",
    source: "ISO 273:1979, table: fine (H12), medium (H13), coarse (H14)",
    basis: "standard",
    unit: "mm",
  },
  "thread",
  ["fine", "medium", "coarse"],
  {
    M2: [2.2, 2.4, 2.6],
    "M2.5": [2.7, 2.9, 3.1],
    M3: [3.2, 3.4, 3.6],
    M4: [4.3, 4.5, 4.8],
    M5: [5.3, 5.5, 5.8],
    M6: [6.4, 6.6, 7],
    M8: [8.4, 9, 10],
    M10: [10.5, 11, 12],
    M12: [13, 13.5, 14.5],
  },
);
