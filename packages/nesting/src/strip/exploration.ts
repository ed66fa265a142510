import { usualMove } from "../search/move.js";
import { totalOverlap } from "../search/pair-book.js";
import { resetWeights, type Search } from "../search/search.js";
import { restoreSnapshot, type Snapshot, separate, takeSnapshot } from "../search/separation.js";
import { disturb } from "./disturbance.js";
import { EXPLORATION, keepIfBest, restoreBest, type StripSearch, shorten, takeOffer } from "./strip-state.js";

/**
 * Exploration: shorten the strip, separate what then overlaps, and repeat; when separation fails, disturb a failed
 * layout and try again.
 *
 * (The frame of Imamichi, Yagiura and Nagamochi 2009 and of Egeblad et al. 2007; the pool of failed layouts is ours.)
 *
 * The step adapts: it grows after a success and shrinks after failures in a row, between 5 % and 0.1 %, so there is no
 * ladder of lengths that a search can be stuck on. Failed layouts of the present best are kept in a pool, the least
 * overlapping first; an attempt starts from one drawn from it, biased to the front, and disturbed.
 */
export function* explore(strip: StripSearch): Generator<void, void> {
  const { search } = strip;
  const pool: Failed[] = [];
  let step = FIRST_STEP;
  let most = FIRST_STEP;
  shorten(search, strip.best.length * (1 - step));
  while (strip.progress() < EXPLORATION) {
    if (yield* separate(search, { move: usualMove, patience: 50, rounds: 2 })) {
      keepIfBest(strip);
      pool.length = 0;
      step = Math.min(most, step * GROWTH);
      shorten(search, strip.best.length * (1 - step));
      continue;
    }
    most = FINE_STEP;
    step = Math.max(LEAST_STEP, Math.min(most, step * DECLINE));
    if (takeOffer(strip)) {
      pool.length = 0;
      restoreBest(strip);
      shorten(search, strip.best.length * (1 - step));
      continue;
    }
    addToPool(pool, search);
    restoreSnapshot(search, drawFromPool(pool, search).snapshot);
    resetWeights(search);
    search.boxes.maxX[0] = strip.best.length * (1 - step);
    disturb(search);
  }
}

const FIRST_STEP = 0.05;
const FINE_STEP = 0.007;
const LEAST_STEP = 0.001;
const GROWTH = 1.15;
const DECLINE = 0.85;
const POOL = 12;

interface Failed {
  readonly total: number;
  readonly snapshot: Snapshot;
}

function addToPool(pool: Failed[], search: Search): void {
  pool.push({ total: totalOverlap(search.book, search.instance), snapshot: takeSnapshot(search) });
  pool.sort((a, b) => a.total - b.total);
  if (pool.length > POOL) pool.length = POOL;
}

function drawFromPool(pool: readonly Failed[], search: Search): Failed {
  return pool[Math.floor(pool.length * search.random() ** 2.5)];
}
