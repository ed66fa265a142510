import type { PipeRow, PipeTable } from "./pipe-table.js";

/**
 * NPS, outside diameter, its plus-or-minus tolerance, ovality of Schedule 40, of Schedule 80, least and largest wall of
 * Schedule 40, of Schedule 80.
 *
 * Ovality of Schedule 40 from NPS 3-1/2 up stands in a wider column of its own (0.100 in); a copy that prints the
 * narrow column for both schedules is not followed.
 */
type Tuple = readonly [string, number, number, number, number, number, number, number, number];

const rows: readonly Tuple[] = [
  ["1/2", 21.34, 0.1, 0.41, 0.41, 2.77, 3.28, 3.73, 4.24],
  ["3/4", 26.67, 0.1, 0.51, 0.51, 2.87, 3.38, 3.91, 4.42],
  ["1", 33.4, 0.13, 0.51, 0.51, 3.38, 3.89, 4.55, 5.08],
  ["1-1/4", 42.16, 0.13, 0.61, 0.61, 3.56, 4.07, 4.85, 5.43],
  ["1-1/2", 48.26, 0.15, 0.61, 0.61, 3.68, 4.19, 5.08, 5.69],
  ["2", 60.32, 0.15, 0.61, 0.61, 3.91, 4.42, 5.54, 6.2],
  ["2-1/2", 73.02, 0.18, 0.76, 0.76, 5.16, 5.77, 7.01, 7.85],
  ["3", 88.9, 0.2, 0.76, 0.76, 5.49, 6.15, 7.62, 8.53],
  ["4", 114.3, 0.23, 2.54, 0.76, 6.02, 6.73, 8.56, 9.58],
  ["5", 141.3, 0.25, 2.54, 1.52, 6.55, 7.34, 9.52, 10.66],
  ["6", 168.28, 0.28, 2.54, 1.78, 7.11, 7.97, 10.97, 12.29],
];

/** PVC pressure pipe by inch size. The ovality holds only before shipment. */
export const astmD1785: PipeTable = {
  id: "astm-d1785",
  standard: "ASTM D1785",
  title: "PVC pipe, Schedules 40 and 80 (ASTM D1785)",
  source: "ASTM D1785 tables 1 and 2; Schedule 40 ovality from NPS 4 up from memory",
  basis: "standard",
  unit: "mm",
  usualSeries: "Schedule 40",
  rows: rows.flatMap(([size, outside, plusMinus, oval40, oval80, min40, max40, min80, max80]) => [
    inchRow(size, "Schedule 40", outside, plusMinus, oval40, min40, max40),
    inchRow(size, "Schedule 80", outside, plusMinus, oval80, min80, max80),
  ]),
};

function inchRow(
  size: string,
  series: string,
  outside: number,
  plusMinus: number,
  ovality: number,
  wallMin: number,
  wallMax: number,
): PipeRow {
  return {
    size,
    series,
    nominalOutside: outside,
    // Sums of binary fractions, rounded to the hundredths the table means.
    outsideMin: Math.round((outside - plusMinus) * 100) / 100,
    outsideMax: Math.round((outside + plusMinus) * 100) / 100,
    nominalWall: wallMin,
    wallMin,
    wallMax,
    ovality,
  };
}
