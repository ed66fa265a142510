import { drainOvality, metricRow } from "./metric-rules.js";
import type { PipeTable } from "./pipe-table.js";

/** dn, plus tolerance of the mean outside diameter, wall of area B, wall of area BD. */
const rows: readonly (readonly [number, number, number, number | null])[] = [
  [32, 0.2, 3, null],
  [40, 0.2, 3, null],
  [50, 0.2, 3, null],
  [63, 0.2, 3, null],
  [75, 0.3, 3, 3],
  [90, 0.3, 3, 3],
  [110, 0.3, 3.2, 3.2],
  [125, 0.3, 3.2, 3.2],
  [160, 0.4, 3.2, 4],
];

/** PVC-U soil and waste pipe inside buildings. In the United Kingdom other sizes (36, 43, 56, 82) are also sold. */
export const en1329: PipeTable = {
  id: "en-1329-1",
  standard: "EN 1329-1",
  title: "PVC-U soil and waste pipe (EN 1329-1)",
  source:
    "EN 1329-1 table 3, from memory; wall tolerance 0.1 e + 0.2 rounded up to 0.1 and ovality 0.024 dn, from memory",
  basis: "from memory",
  unit: "mm",
  usualSeries: "B",
  rows: rows.flatMap(([dn, plus, b, bd]) => [
    metricRow(dn, "B", plus, b, drainOvality(dn)),
    ...(bd === null ? [] : [metricRow(dn, "BD", plus, bd, drainOvality(dn))]),
  ]),
};
