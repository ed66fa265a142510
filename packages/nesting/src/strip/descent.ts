import { type FailedLayouts, tryAgain } from "../search/failed-layouts.js";
import { usualMove } from "../search/move.js";
import { separate } from "../search/separation.js";
import {
  keepIfBest,
  layoutOf,
  restoreLayout,
  type StripLayout,
  type StripSearch,
  shortenTo,
  shortestWorth,
  takeOffer,
} from "./strip-state.js";

/** A layout on its way down: shortened as long as that goes. */
export interface Descent {
  layout: StripLayout;
  /** Part of the length that the next attempt cuts off, and the most it may be. */
  step: number;
  mostStep: number;
}

/** The step of a first layout, which is loose; after the first failure it is FINE_STEP at most. */
export const FIRST_STEP = 0.05;
export const FINE_STEP = 0.007;
const LEAST_STEP = 0.001;
const GROWTH = 1.15;
const DECLINE = 0.85;

/**
 * A descent: shorten the strip, separate what then overlaps, and repeat; when separation fails, disturb a failed layout
 * and try again, until the layout is stuck.
 *
 * (The frame of Imamichi, Yagiura and Nagamochi 2009 and of Egeblad et al. 2007; the pool of failed layouts is ours.)
 *
 * The step adapts: it grows after a success and shrinks after failures in a row, between 5 % and 0.1 %, so there is no
 * ladder of lengths that a descent can be stuck on. It is stuck when twenty attempts in a row have failed and the last
 * success lies as far back as it took to get there: a descent that still pays is never cut short.
 *
 * While its layout is the best known, a shorter one of another stream takes its place.
 */
export function* descend(strip: StripSearch, descent: Descent): Generator<void, void> {
  const { search } = strip;
  const failed: FailedLayouts = [];
  const began = search.steps;
  let lastSuccess = began;
  let failures = 0;
  restoreLayout(search, descent.layout);
  shortenTo(strip, descent.layout.length * (1 - descent.step));
  while (strip.progress() < strip.exploration) {
    if (
      (yield* separate(search, { move: usualMove, patience: 50, rounds: 2 })) &&
      keepShorter(strip, descent)
    ) {
      descent.step = Math.min(descent.mostStep, descent.step * GROWTH);
    } else {
      failures++;
      descent.mostStep = FINE_STEP;
      descent.step = Math.max(LEAST_STEP, Math.min(FINE_STEP, descent.step * DECLINE));
      if (!joinOthers(strip, descent)) {
        if (failures >= STUCK_AFTER && search.steps - lastSuccess > lastSuccess - began) return;
        search.boxes.maxX[0] = shortestWorth(strip, descent.layout.length * (1 - descent.step));
        tryAgain(search, failed);
        continue;
      }
    }
    failed.length = 0;
    failures = 0;
    lastSuccess = search.steps;
    shortenTo(strip, descent.layout.length * (1 - descent.step));
    yield;
  }
}

/** Failed attempts in a row before a descent can be stuck. */
const STUCK_AFTER = 20;

/** Whether the layout reached is shorter: an item that fits the strip in no turn sticks out of it without overlap. */
function keepShorter(strip: StripSearch, descent: Descent): boolean {
  const reached = layoutOf(strip.search);
  if (reached.length >= descent.layout.length) return false;
  descent.layout = reached;
  keepIfBest(strip, reached);
  return true;
}

/** Goes on from the best layout of the other streams, if this descent led and is now behind. */
function joinOthers(strip: StripSearch, descent: Descent): boolean {
  if (descent.layout !== strip.best || !takeOffer(strip)) return false;
  descent.layout = strip.best;
  restoreLayout(strip.search, descent.layout);
  return true;
}
