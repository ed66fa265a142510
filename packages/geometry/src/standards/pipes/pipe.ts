import { nearestNames, UnknownEntry } from "../unknown-entry.js";
import { astmD1785 } from "./astm-d1785.js";
import { din8062 } from "./din-8062.js";
import { en1329 } from "./en-1329-1.js";
import { en1401 } from "./en-1401-1.js";
import { en1451 } from "./en-1451-1.js";
import { iso1452 } from "./en-iso-1452-2.js";
import type { PipeRow, PipeTable } from "./pipe-table.js";

/** Which pipe is meant: standard and size as the tables name them, series where a size has several. */
export interface PipeName {
  readonly standard: string;
  readonly size: string;
  readonly series?: string | undefined;
}

/** A pipe as its standard limits it; mm. */
export interface Pipe extends PipeRow {
  readonly standard: string;
  /** For example `EN 1329-1 75x3` or `ASTM D1785 1-1/2 Schedule 40`. */
  readonly designation: string;
  /** True when the size has several series, none was asked for and the usual one was taken. */
  readonly seriesAssumed: boolean;
  readonly source: string;
}

/**
 * The pipe of that standard, size and series. Throws UnknownEntry, naming whichever of the three is unknown.
 *
 * Tables are no substitute for a measurement: stored pipe goes more oval, and one nominal size has several walls.
 */
export function pipe(name: PipeName): Pipe {
  const table = pipeTables.find(({ standard }) => standard === name.standard);
  if (table === undefined) {
    const standards = pipeTables.map(({ standard }) => standard);
    throw new UnknownEntry("Pipe standards", name.standard, nearestNames(name.standard, standards));
  }
  const ofSize = table.rows.filter(({ size }) => size === name.size);
  if (ofSize.length === 0) {
    const sizes = [...new Set(table.rows.map(({ size }) => size))];
    throw new UnknownEntry(`${table.title}, sizes`, name.size, nearestNames(name.size, sizes));
  }
  const usual = ofSize.find(({ series }) => series === table.usualSeries) ?? ofSize[0];
  const row = name.series === undefined ? usual : ofSize.find(({ series }) => series === name.series);
  if (row === undefined) {
    const series = ofSize.map((each) => each.series);
    throw new UnknownEntry(`${table.title}, series of size ${name.size}`, String(name.series), series);
  }
  return {
    ...row,
    standard: table.standard,
    designation: designation(table, row),
    seriesAssumed: name.series === undefined && ofSize.length > 1,
    source: table.source,
  };
}

/**
 * The least bore, mm, anywhere in a pipe: smallest mean outside diameter, thickest wall and full ovality at once. What
 * must enter the pipe has to be smaller than this. ASTM D1785 adds mean tolerance and ovality in the same way.
 */
export function smallestBore(limits: Pick<PipeRow, "outsideMin" | "wallMax" | "ovality">): number {
  return limits.outsideMin - limits.ovality / 2 - 2 * limits.wallMax;
}

/** The largest outside diameter, mm, anywhere on a pipe: largest mean diameter and full ovality at once. */
export function largestOutside(limits: Pick<PipeRow, "outsideMax" | "ovality">): number {
  return limits.outsideMax + limits.ovality / 2;
}

/** Every pipe standard that is built in. */
export const pipeTables: readonly PipeTable[] = [en1329, en1401, iso1452, en1451, din8062, astmD1785];

/** Metric pipe is called by outside diameter and wall, inch pipe by nominal size and schedule. */
function designation(table: PipeTable, row: PipeRow): string {
  return table === astmD1785
    ? `${table.standard} ${row.size} ${row.series}`
    : `${table.standard} ${row.size}x${row.nominalWall}`;
}
