import type { TableFacts } from "../table.js";

/** One size of pipe in one series as its standard limits it; mm. */
export interface PipeRow {
  readonly size: string;
  readonly series: string;
  /** Outside diameter the pipe is named after. */
  readonly nominalOutside: number;
  /** Limits of the mean outside diameter (circumference / pi). */
  readonly outsideMin: number;
  readonly outsideMax: number;
  readonly nominalWall: number;
  readonly wallMin: number;
  readonly wallMax: number;
  /** Largest minus smallest outside diameter in one cross-section. */
  readonly ovality: number;
}

/** One pipe standard. */
export interface PipeTable extends TableFacts {
  /** The standard's name as frame files give it, for example `EN 1329-1`. */
  readonly standard: string;
  /** Taken when no series is asked for; stated in the result as assumed when the size has several. */
  readonly usualSeries: string;
  readonly rows: readonly PipeRow[];
}
