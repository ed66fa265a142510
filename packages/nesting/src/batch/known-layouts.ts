import { placeContour, regionBounds } from "@keelcut/geometry";
import type { NestJob, Sheet, Stock } from "../job.js";
import type { Laid } from "../sheets/board.js";
import type { FilledSheet } from "../sheets/fill.js";
import type { Setup } from "../sheets/prepare.js";
import { verify } from "../verify.js";
import type { Cut, LayoutPool } from "./pool.js";
import type { StockShape } from "./shapes.js";

/** Layouts of an earlier plan against a job of today. */
export interface ServingSheets {
  /** Those that may be cut as they are, on stock of the job. */
  readonly sheets: readonly Sheet[];
  /** What became of the others, by their place in the list given. */
  readonly dropped: readonly { readonly index: number; readonly message: string }[];
}

/**
 * The sheets that still serve a job: their plates are plates of the job, lie on stock of the job, and pass `verify` with
 * its present contours, clearance and edge margin. Counts are not compared: a plan may cut a sheet as often as it likes.
 */
export function servingSheets(job: NestJob, sheets: readonly Sheet[]): ServingSheets {
  const kept: Sheet[] = [];
  const dropped: { index: number; message: string }[] = [];
  for (const [index, sheet] of sheets.entries()) {
    const message = faultOf(job, sheet);
    if (message === undefined) kept.push(sheet);
    else dropped.push({ index, message });
  }
  return { sheets: kept, dropped };
}

function faultOf(job: NestJob, sheet: Sheet): string | undefined {
  if (!Number.isSafeInteger(sheet.times) || sheet.times < 1) return `it is cut ${sheet.times} times`;
  if (sheet.placements.length === 0) return "nothing lies on it";
  const stranger = sheet.placements.find(({ part }) => !job.parts.some(({ id }) => id === part));
  if (stranger !== undefined) return `there is no plate ${stranger.part} any more`;
  if (!job.stock.some(({ id }) => id === sheet.stock)) return `there is no stock ${sheet.stock} any more`;
  const parts = job.parts.map((part) => ({ ...part, demand: countOf(sheet, part.id) }));
  const stock = job.stock.map((piece): Stock => ({ ...piece, available: "unlimited" }));
  const once = { sheets: [{ ...sheet, times: 1 }], unplaced: [], cost: 0, yield: 0, steps: 0 };
  // Cost and yield are sums over a whole plan, which this is not.
  return verify({ ...job, parts, stock }, once).find(({ kind }) => kind !== "totals")?.message;
}

function countOf(sheet: Sheet, part: string): number {
  return sheet.placements.filter((placement) => placement.part === part).length;
}

/** Puts sheets that serve into the pool; with how often each was cut, which is a plan of its own. */
export function addKnown(
  pool: LayoutPool,
  setup: Setup,
  shapes: readonly StockShape[],
  sheets: readonly Sheet[],
): Cut[] {
  const cuts = new Map<string, Cut>();
  for (const sheet of servingSheets(setup.job, sheets).sheets) {
    const shape = shapes.find((each) => each.pieces.some(({ stock }) => stock.id === sheet.stock));
    if (shape === undefined) continue;
    // One layout on pieces at hand and on bought ones is one layout.
    const key = JSON.stringify([shape.index, sheet.placements]);
    const before = cuts.get(key);
    if (before !== undefined) {
      cuts.set(key, { ...before, times: before.times + sheet.times });
      continue;
    }
    const filled = filledSheet(setup, shape, sheet);
    pool.add(shape, filled);
    cuts.set(key, { layout: { shape, filled, counts: filled.counts }, times: sheet.times });
  }
  return [...cuts.values()];
}

function filledSheet({ kinds, job }: Setup, shape: StockShape, sheet: Sheet): FilledSheet {
  const model = shape.along.turned ? shape.across : shape.along;
  const kindOf = new Map(kinds.map(({ part, index }) => [part.id, index]));
  const laid = sheet.placements.map(({ part, x, y, rotation, mirrored }): Laid => {
    return { kind: kindOf.get(part) as number, turn: { rotation, mirrored }, x, y };
  });
  const counts = kinds.map(({ part }) => countOf(sheet, part.id));
  const ends = sheet.placements.map((placement) => {
    const { outer } = kinds[kindOf.get(placement.part) as number].part.region;
    return regionBounds({ outer: placeContour(outer, placement), openings: [] }).maxX;
  });
  return {
    model,
    laid,
    counts,
    area: kinds.reduce((sum, { area, index }) => sum + area * counts[index], 0),
    used: Math.max(...ends) + job.clearance / 2 - model.limits.minX,
  };
}
