import { shuffle } from "../random.js";
import type { MoveEffort } from "./move.js";
import { reweigh, totalOverlap } from "./pair-book.js";
import type { Search } from "./search.js";
import { restoreSnapshot, saveSnapshot, takeSnapshot } from "./snapshot.js";

/** How hard to try: samples for a move, sweeps without a fall of the overlap that end a round, and rounds. */
export interface SeparationEffort {
  readonly move: MoveEffort;
  readonly patience: number;
  readonly rounds: number;
}

/**
 * Separation: lays overlapping items out without overlap, or gives up.
 *
 * Sweeps over the items in conflict, in random order, moving each to where its weighted overlap is least; after a sweep
 * pairs still in conflict gain weight (guided local search: see `pair-book.ts`). A round ends after `patience` sweeps
 * without a fall of 2 % in the total overlap; the next starts from the best state with the weights as they are.
 *
 * A generator, so that a caller can pause it after any sweep; returns whether all overlap is gone. When it is not, the
 * search is left in its best state.
 */
export function* separate(search: Search, effort: SeparationEffort): Generator<void, boolean> {
  const { engine, instance, book, random } = search;
  const order = new Int32Array(instance.movable);
  const best = takeSnapshot(search);
  let least = totalOverlap(book, instance);
  for (let round = 0; round < effort.rounds; round++) {
    let roundLeast = least;
    for (let idle = 0; idle < effort.patience; idle++) {
      let count = 0;
      for (let i = 0; i < instance.movable; i++) if (book.conflicts[i] > 0) order[count++] = i;
      if (count === 0) return true;
      shuffle(order, count, random);
      for (let k = 0; k < count; k++)
        if (book.conflicts[order[k]] > 0) engine.moveItem(search, order[k], effort.move);
      const total = totalOverlap(book, instance);
      if (total === 0) return true;
      if (total < least) {
        least = total;
        saveSnapshot(search, best);
      }
      if (total < 0.98 * roundLeast) {
        roundLeast = total;
        idle = -1;
      }
      reweigh(book, instance, LEAST_GAIN, MOST_GAIN, DECAY);
      yield;
    }
    restoreSnapshot(search, best);
  }
  return false;
}

/** Weights of pairs in conflict grow by these factors, from the smallest to the largest overlap; others decay. */
const LEAST_GAIN = 1.2;
const MOST_GAIN = 2.0;
const DECAY = 0.95;
