import { metricRow, pressureOvality } from "./metric-rules.js";
import type { PipeTable } from "./pipe-table.js";

const series = ["PN4", "PN6", "PN10", "PN16"] as const;

/** dn, plus tolerance of the mean outside diameter, walls of the four series. */
const rows: readonly (readonly [number, number, ...(number | null)[]])[] = [
  [32, 0.2, null, null, 1.8, 2.4],
  [40, 0.2, null, 1.8, 1.9, 3],
  [50, 0.2, null, 1.8, 2.4, 3.7],
  [63, 0.2, null, 1.9, 3, 4.7],
  [75, 0.3, 1.8, 2.2, 3.6, 5.6],
  [90, 0.3, 1.8, 2.7, 4.3, 6.7],
  [110, 0.3, 2.2, 3.2, 5.3, 8.2],
  [125, 0.3, 2.5, 3.7, 6, 9.3],
  [160, 0.4, 3.2, 4.7, 7.7, 11.9],
];

/** PVC-U pipe by the German standard. Which series the walls of 32, 40 and 50 belong to is the least sure. */
export const din8062: PipeTable = {
  id: "din-8062",
  standard: "DIN 8062",
  title: "PVC-U pipe (DIN 8062)",
  source:
    "DIN 8062 dimensional chart (largest walls printed there equal 0.1 e + 0.2 rounded up to 0.1); ovality ISO 11922-1 grade N, from memory",
  basis: "standard",
  unit: "mm",
  note: "Ovality from memory.",
  usualSeries: "PN10",
  rows: rows.flatMap(([dn, plus, ...walls]) =>
    series.flatMap((name, i) => {
      const wall = walls[i];
      return wall == null ? [] : [metricRow(dn, name, plus, wall, pressureOvality(dn))];
    }),
  ),
};
