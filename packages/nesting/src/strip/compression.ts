import { usualMove } from "../search/move.js";
import { separate } from "../search/separation.js";
import {
  keepIfBest,
  layoutOf,
  restoreLayout,
  type StripLayout,
  type StripSearch,
  shortenTo,
  takeOffer,
} from "./strip-state.js";

/**
 * Compression: the best layout, shortened by very little at a random cut, separated again; kept when that succeeds,
 * else undone. What succeeds is pressed (see `search/pressing.ts`). The step grows with success and halves with failure; from
 * its least it starts again at its first, so the same layout is tried at other cuts, coarse and fine. The fine end
 * matters for jigsaws, which fit exactly or not at all.
 */
export function* compress(strip: StripSearch): Generator<void, void> {
  let step = strip.compressionStep;
  while (strip.progress() < 1) {
    takeOffer(strip);
    const reached = yield* shortened(strip, strip.best, step);
    if (reached !== undefined) {
      keepIfBest(strip, reached);
      step = Math.min(strip.compressionStep, 1.2 * step);
    } else {
      step = step < LEAST_STEP ? strip.compressionStep : 0.5 * step;
    }
  }
}

const LEAST_STEP = 5e-7;

/**
 * The same for any layout, ended by a dozen attempts in a row that gain nothing: what slack a descent has left is taken
 * out at little cost. What it becomes is kept if it is the best.
 */
export function* squeeze(strip: StripSearch, from: StripLayout): Generator<void, void> {
  let layout = from;
  let step = strip.compressionStep;
  for (let failures = 0; failures < GAINLESS && strip.progress() < strip.exploration; ) {
    const reached = yield* shortened(strip, layout, step);
    const gained = reached !== undefined && reached.length < layout.length * (1 - LEAST_GAIN);
    failures = gained ? 0 : failures + 1;
    if (reached !== undefined && reached.length < layout.length) layout = reached;
    if (reached !== undefined) step = Math.min(strip.compressionStep, 1.2 * step);
    else step = step < LEAST_GAIN ? strip.compressionStep : 0.5 * step;
  }
  keepIfBest(strip, layout);
}

/** Attempts in a row without a gain that end it. */
const GAINLESS = 12;
/** Part of the length that is worth another dozen attempts. */
const LEAST_GAIN = 1e-5;

/** A layout shortened by a part of its length, separated and pressed; undefined when it cannot be. */
function* shortened(
  strip: StripSearch,
  layout: StripLayout,
  step: number,
): Generator<void, StripLayout | undefined> {
  const { search } = strip;
  restoreLayout(search, layout);
  shortenTo(strip, layout.length * (1 - step));
  if (!(yield* separate(search, { move: usualMove, patience: 30, rounds: 1 }))) return undefined;
  yield* search.engine.press(search);
  yield;
  return layoutOf(search);
}
