import { squeeze } from "./compression.js";
import { type Descent, descend, FINE_STEP, FIRST_STEP } from "./descent.js";
import { renew } from "./renewal.js";
import { keepIfBest, type StripSearch, takeOffer } from "./strip-state.js";

/**
 * Exploration: descent after descent, each until it is stuck, the first from the bottom-left layout, the others from
 * renewed ones (iterated local search: Lourenco, Martin and Stuetzle 2003, from memory; here the local search is a whole descent).
 *
 * A first descent that still pays takes all the effort. Instances that lock early, those of few angular items, get tens
 * of descents a minute. Layouts of other streams are taken over between descents, so that each stream follows a way of
 * its own within one.
 */
export function* explore(strip: StripSearch): Generator<void, void> {
  const descent: Descent = { layout: strip.best, step: FIRST_STEP, mostStep: FIRST_STEP };
  while (strip.progress() < strip.exploration) {
    yield* descend(strip, descent);
    if (descent.layout.length <= strip.best.length * WORTH_SQUEEZING) yield* squeeze(strip, descent.layout);
    takeOffer(strip);
    const renewed = yield* renew(strip);
    if (renewed === undefined) return;
    descent.layout = renewed;
    descent.step = FINE_STEP;
    descent.mostStep = RENEWED_STEP;
    keepIfBest(strip, renewed);
  }
}

/** Layouts up to so many lengths of the best are squeezed when their descent is stuck. */
const WORTH_SQUEEZING = 1.01;

/** The most a renewed layout, looser than a stuck one, is shortened by at a time. */
const RENEWED_STEP = 0.02;
