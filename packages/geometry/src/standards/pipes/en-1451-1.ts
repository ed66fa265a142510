import { drainOvality, metricRow } from "./metric-rules.js";
import type { PipeTable } from "./pipe-table.js";

/** dn, plus tolerance of the mean outside diameter, walls of series S20 and S16. */
const rows: readonly (readonly [number, number, number, number])[] = [
  [32, 0.3, 1.8, 1.8],
  [40, 0.3, 1.8, 1.8],
  [50, 0.3, 1.8, 1.8],
  [75, 0.4, 1.9, 2.3],
  [90, 0.4, 2.2, 2.8],
  [110, 0.4, 2.7, 3.4],
  [125, 0.4, 3.1, 3.9],
  [160, 0.5, 3.9, 4.9],
];

/** PP waste pipe. "DN 100" in shops is outside 110; in the United Kingdom 34, 41 and 54 are also sold. */
export const en1451: PipeTable = {
  id: "en-1451-1",
  standard: "EN 1451-1",
  title: "PP soil and waste pipe (EN 1451-1)",
  source:
    "EN 1451-1 tables 3 and 4, from memory; wall tolerance 0.1 e + 0.2 rounded up to 0.1 and ovality 0.024 dn as for PVC-U drain pipe, from memory",
  basis: "from memory",
  unit: "mm",
  usualSeries: "S20",
  rows: rows.flatMap(([dn, plus, s20, s16]) => [
    metricRow(dn, "S20", plus, s20, drainOvality(dn)),
    metricRow(dn, "S16", plus, s16, drainOvality(dn)),
  ]),
};
