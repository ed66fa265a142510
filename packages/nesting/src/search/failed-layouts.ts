import { disturb } from "./disturbance.js";
import { totalOverlap } from "./pair-book.js";
import { resetWeights, type Search } from "./search.js";
import { restoreSnapshot, type Snapshot, takeSnapshot } from "./snapshot.js";

/** Layouts, in boxes of about one size, that separation could not free, the least overlapping first; a dozen are kept. */
export type FailedLayouts = {
  readonly total: number;
  readonly snapshot: Snapshot;
}[];

/**
 * The next attempt after a failed one: the failed layout joins the others, one of them, rather a good one
 * than a bad one, is taken up and disturbed. Weights start at 1 again. Counts as a step, so that effort is spent even where
 * separation finds nothing to move.
 */
export function tryAgain(search: Search, failed: FailedLayouts): void {
  search.steps++;
  failed.push({ total: totalOverlap(search.book, search.instance), snapshot: takeSnapshot(search) });
  failed.sort((a, b) => a.total - b.total);
  if (failed.length > MOST_KEPT) failed.length = MOST_KEPT;
  const drawn = failed[Math.floor(failed.length * search.random() ** BIAS)];
  resetWeights(search);
  restoreSnapshot(search, drawn.snapshot);
  disturb(search);
}

const MOST_KEPT = 12;
/** A uniform draw to this power: the first twelfth is drawn in more than a third of the cases. */
const BIAS = 2.5;
