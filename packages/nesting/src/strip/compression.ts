import { usualMove } from "../search/move.js";
import { separate } from "../search/separation.js";
import { keepIfBest, restoreLayout, type StripSearch, shorten, takeOffer } from "./strip-state.js";

/**
 * Compression: the best layout, shortened by very little at a random cut, separated again; kept when that succeeds,
 * else undone. What succeeds is pressed (see `search/pressing.ts`). The step grows with success and halves with failure; from
 * its least it starts again at its first, so the same layout is tried at other cuts, coarse and fine. The fine end
 * matters for jigsaws, which fit exactly or not at all.
 */
export function* compress(strip: StripSearch): Generator<void, void> {
  const { search, progress } = strip;
  let step = FIRST_STEP;
  while (progress() < 1) {
    takeOffer(strip);
    restoreLayout(search, strip.best);
    shorten(search, strip.best.length * (1 - step));
    if (yield* separate(search, { move: usualMove, patience: 30, rounds: 1 })) {
      search.engine.press(search);
      keepIfBest(strip);
      step = Math.min(FIRST_STEP, 1.2 * step);
    } else {
      step = step < LEAST_STEP ? FIRST_STEP : 0.5 * step;
    }
  }
}

const FIRST_STEP = 0.001;
const LEAST_STEP = 5e-7;
