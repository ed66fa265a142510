import type { TableFacts } from "./table.js";
import { nearestNames, UnknownEntry } from "./unknown-entry.js";

export type ItGrade = "IT12" | "IT13" | "IT14" | "IT15";
export type GeneralClass = "f" | "m" | "c" | "v";

/**
 * Width of a standard tolerance, mm, by ISO 286-1: IT12 to IT15, nominal sizes from 1 to 315 mm.
 * Throws UnknownEntry for another grade, RangeError for another size.
 */
export function itTolerance(size: number, grade: ItGrade): number {
  const column = columnOf(itTable, grade);
  return (rowFor(itTable, size)[column] as number) / 1000;
}

/**
 * General tolerance of a length without its own, plus or minus mm, by ISO 2768-1, sizes from 0.5 to 4000 mm.
 * `null` where the standard gives none. Throws UnknownEntry for another class, RangeError for another size.
 */
export function generalTolerance(size: number, grade: GeneralClass): number | null {
  const column = columnOf(generalTable, grade);
  return rowFor(generalTable, size)[column] as number | null;
}

/** A table by ranges of size: `over` excluded, `to` included, except that the first range includes its lower end. */
export interface RangeTable extends TableFacts {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly [over: number, to: number, ...values: (number | null)[]])[];
}

/** One public copy prints IT12 = 90 for 1 to 3 mm; the standard's series has 100. */
export const itTable: RangeTable = {
  id: "iso-286-1",
  title: "Standard tolerance grades (ISO 286-1)",
  source: "ISO 286-1:2010 table 1",
  basis: "standard",
  unit: "sizes mm, tolerances micrometres",
  columns: ["over", "to", "IT12", "IT13", "IT14", "IT15"],
  rows: [
    [1, 3, 100, 140, 250, 400],
    [3, 6, 120, 180, 300, 480],
    [6, 10, 150, 220, 360, 580],
    [10, 18, 180, 270, 430, 700],
    [18, 30, 210, 330, 520, 840],
    [30, 50, 250, 390, 620, 1000],
    [50, 80, 300, 460, 740, 1200],
    [80, 120, 350, 540, 870, 1400],
    [120, 180, 400, 630, 1000, 1600],
    [180, 250, 460, 720, 1150, 1850],
    [250, 315, 520, 810, 1300, 2100],
  ],
};

/** One copy prints class c as 0.15 and 0.2 in the first two ranges; four others print 0.2 and 0.3, used here. */
export const generalTable: RangeTable = {
  id: "iso-2768-1",
  title: "General tolerances of lengths (ISO 2768-1)",
  source: "ISO 2768-1:1989 table 1",
  basis: "standard",
  unit: "mm, plus or minus",
  columns: ["over", "to", "f", "m", "c", "v"],
  rows: [
    [0.5, 3, 0.05, 0.1, 0.2, null],
    [3, 6, 0.05, 0.1, 0.3, 0.5],
    [6, 30, 0.1, 0.2, 0.5, 1],
    [30, 120, 0.15, 0.3, 0.8, 1.5],
    [120, 400, 0.2, 0.5, 1.2, 2.5],
    [400, 1000, 0.3, 0.8, 2, 4],
    [1000, 2000, 0.5, 1.2, 3, 6],
    [2000, 4000, null, 2, 4, 8],
  ],
};

function columnOf(table: RangeTable, name: string): number {
  const column = table.columns.indexOf(name, 2);
  if (column < 0) throw new UnknownEntry(table.title, name, nearestNames(name, table.columns.slice(2)));
  return column;
}

function rowFor(table: RangeTable, size: number): RangeTable["rows"][number] {
  const row = table.rows.find(([over, to], i) => (i === 0 ? size >= over : size > over) && size <= to);
  if (row === undefined) {
    const [least, most] = [table.rows[0]?.[0], table.rows.at(-1)?.[1]];
    throw new RangeError(`${table.title}: size ${size} mm is outside ${least} to ${most} mm`);
  }
  return row;
}
