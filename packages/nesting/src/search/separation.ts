import { shuffle } from "../random.js";
import type { MoveEffort } from "./move.js";
import { reweigh, totalOverlap } from "./pair-book.js";
import { rebuild, type Search } from "./search.js";

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
export interface SeparationEffort {
  readonly move: MoveEffort;
  readonly patience: number;
  readonly rounds: number;
}

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

/** Where all movable items lay at one moment. */
export interface Snapshot {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly shape: Int32Array;
  readonly angle: Float64Array;
  readonly box: Int32Array;
  readonly present: Uint8Array;
}

export function takeSnapshot(search: Search): Snapshot {
  const n = search.instance.movable;
  return {
    x: search.x.slice(0, n),
    y: search.y.slice(0, n),
    shape: search.shape.slice(0, n),
    angle: search.angle.slice(0, n),
    box: search.box.slice(0, n),
    present: search.present.slice(0, n),
  };
}

export function saveSnapshot(search: Search, into: Snapshot): void {
  const n = search.instance.movable;
  into.x.set(search.x.subarray(0, n));
  into.y.set(search.y.subarray(0, n));
  into.shape.set(search.shape.subarray(0, n));
  into.angle.set(search.angle.subarray(0, n));
  into.box.set(search.box.subarray(0, n));
  into.present.set(search.present.subarray(0, n));
}

/** Lays the items as they were and computes their overlaps afresh. Weights stay. */
export function restoreSnapshot(search: Search, from: Snapshot): void {
  search.x.set(from.x);
  search.y.set(from.y);
  search.shape.set(from.shape);
  search.angle.set(from.angle);
  search.box.set(from.box);
  search.present.set(from.present);
  rebuild(search);
}
