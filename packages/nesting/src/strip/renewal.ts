import { type FailedLayouts, tryAgain } from "../search/failed-layouts.js";
import { usualMove } from "../search/move.js";
import { rebuild, type Search } from "../search/search.js";
import { separate } from "../search/separation.js";
import { layoutOf, restoreLayout, type StripLayout, type StripSearch, shortestWorth } from "./strip-state.js";

/**
 * Renewal: a new layout to descend from, when the last descent is stuck.
 *
 * A stuck layout is locked as a whole: its rows interlock, and exchanging a few items leads back to it. So the items of
 * a whole window of the best layout, or all items, are thrown at random places, and the strip gets a length from a
 * little below the best to a little above; a layout condensed at once at a small length often has another structure
 * than one shortened step by step, and a better one. Separation sorts it out; after every twenty failures the strip is
 * made longer, so that it ends with a valid layout, usually longer than the best.
 *
 * Returns undefined when the effort is spent before.
 */
export function* renew(strip: StripSearch): Generator<void, StripLayout | undefined> {
  const { search, best } = strip;
  const factor = LEAST_LENGTH + (MOST_LENGTH - LEAST_LENGTH) * search.random();
  let length = shortestWorth(strip, best.length * factor);
  restoreLayout(search, best);
  scatter(search, length);
  const failed: FailedLayouts = [];
  for (let failures = 1; strip.progress() < strip.exploration; failures++) {
    if (yield* separate(search, { move: usualMove, patience: 50, rounds: 2 })) return layoutOf(search);
    if (failures % LOOSENED_AFTER === 0) length *= 1 + LENGTHENING;
    search.boxes.maxX[0] = length;
    tryAgain(search, failed);
  }
  return undefined;
}

/** Lengths a renewed layout may begin with, in lengths of the best. */
const LEAST_LENGTH = 0.99;
const MOST_LENGTH = 1.03;
/** After every so many failures the strip is made longer by this part. */
const LOOSENED_AFTER = 20;
const LENGTHENING = 0.01;

/** Part of the renewals that scatter all items, and the window of the others, in lengths of the strip. */
const WHOLE = 0.3;
const LEAST_WINDOW = 0.2;
const MOST_WINDOW = 0.6;

/** Throws the items whose centres lie in a window at random places within it; what lies right of it moves with the end. */
function scatter(search: Search, length: number): void {
  const { instance, boxes, random, x, y } = search;
  const old = boxes.maxX[0];
  const window = random() < WHOLE ? old : old * (LEAST_WINDOW + (MOST_WINDOW - LEAST_WINDOW) * random());
  const from = random() * (old - window);
  for (let i = 0; i < instance.movable; i++) {
    if (x[i] > from + window) {
      x[i] += length - old;
    } else if (x[i] >= from) {
      x[i] = from + random() * window;
      y[i] = random() * boxes.maxY[0];
      search.engine.turnAtRandom(search, i);
    }
  }
  boxes.maxX[0] = length;
  rebuild(search);
}
