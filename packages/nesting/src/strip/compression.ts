import { usualMove } from "../search/move.js";
import { separate } from "../search/separation.js";
import { restoreBest, shorten } from "./exploration.js";
import { EXPLORATION, keepIfBest, type StripSearch, takeOffer } from "./strip-search.js";

/**
 * Compression: the best layout, shortened by very little at a random cut, separated again; kept when that succeeds,
 * else undone. The step falls from 0.1 % to 0.001 % over the time left.
 */
export function* compress(strip: StripSearch): Generator<void, void> {
  const { search, progress } = strip;
  while (progress() < 1) {
    const spent = (progress() - EXPLORATION) / (1 - EXPLORATION);
    const step = FIRST_STEP * (LAST_STEP / FIRST_STEP) ** Math.max(0, spent);
    takeOffer(strip);
    restoreBest(strip);
    shorten(search, strip.best.length * (1 - step));
    if (yield* separate(search, { move: usualMove, patience: 30, rounds: 1 })) keepIfBest(strip);
  }
}

const FIRST_STEP = 0.001;
const LAST_STEP = 0.00001;
