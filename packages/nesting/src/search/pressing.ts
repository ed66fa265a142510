import { overlapAt } from "./overlap.js";
import { closeRow, openRow } from "./pair-book.js";
import { fitsBox, highY, insert, lowX, lowY, remove, type Search } from "./search.js";

/**
 * Pressing: a layout without overlap pushed to the left end until nothing gives, so that no slack stays between items
 * that could touch.
 *
 * Separation ends as soon as nothing overlaps and leaves gaps as fine as its last step. Here every item, leftmost
 * first, goes left, straight or aslant, by steps halved from a thousandth of the mean size down to rounding, wherever
 * it stays free. Sweeps are repeated while one item gains. Overlap never appears, so the layout stays valid throughout.
 *
 * A generator, so that a caller can pause it after any sweep. For engines with no-fit regions. Cost: seven evaluations for an
 * item that cannot give, some hundred for one that can.
 */
export function* press(search: Search): Generator<void, void> {
  const { instance, x } = search;
  const order = Array.from({ length: instance.movable }, (_, i) => i);
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    order.sort((a, b) => x[a] - x[b] || a - b);
    let gained = 0;
    for (const item of order) gained = Math.max(gained, pressItem(search, item));
    if (gained <= WORTH_SWEEPING * instance.meanSize) return;
    yield;
  }
}

const MOST_SWEEPS = 12;
/** In mean sizes. */
const FIRST_STEP = 1e-3;
const LEAST_STEP = 1e-9;
/** A way is gone only where it is free for this much, a little more than what counts as rounding. */
const PROBE = 4e-9;
/** The largest gain of a sweep after which another is worth it. */
const WORTH_SWEEPING = 1e-8;
/** Ways to the left: rise for each unit. */
const RISES = [0, 1, -1, 0.25, -0.25, 4, -4];

function pressItem(search: Search, item: number): number {
  const { book, x, y, shape, box, instance } = search;
  const s = shape[item];
  const b = box[item];
  if (!fitsBox(search, s, b)) return 0;
  const before = x[item];
  openRow(book, item);
  remove(search, item);
  const isFree = (toX: number, toY: number): boolean =>
    toX >= lowX(search, s, b) &&
    toY >= lowY(search, s, b) &&
    toY <= highY(search, s, b) &&
    overlapAt(search, item, s, toX, toY, Number.MIN_VALUE) === 0;
  const probe = PROBE * instance.meanSize;
  for (const rise of RISES) {
    if (!isFree(x[item] - probe, y[item] + rise * probe)) continue;
    for (let step = FIRST_STEP * instance.meanSize; step > LEAST_STEP * instance.meanSize; ) {
      if (isFree(x[item] - step, y[item] + rise * step)) {
        x[item] -= step;
        y[item] += rise * step;
      } else {
        step *= 0.5;
      }
    }
  }
  insert(search, item);
  closeRow(book, item);
  return before - x[item];
}
