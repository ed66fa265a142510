import { construct, largestFirst } from "../search/construct.js";
import type { Instance } from "../search/instance.js";
import { usualMove } from "../search/move.js";
import { randomIndex } from "../search/random.js";
import { type Boxes, fitsBox, newSearch, rebuild, resetWeights, type Search } from "../search/search.js";
import {
  restoreSnapshot,
  type Snapshot,
  separate,
  takeSnapshot,
  usualSeparation,
} from "../search/separation.js";

/** A valid layout of a strip and the length it needs. */
export interface StripLayout {
  readonly length: number;
  readonly snapshot: Snapshot;
}

export interface StripSearch {
  readonly search: Search;
  best: StripLayout;
  /** A layout found elsewhere, to be taken over at the next chance if it is better. */
  offered: StripLayout | undefined;
}

/** Share of the effort spent exploring; the rest compresses the best layout. */
const EXPLORATION = 0.75;

export function newStripSearch(instance: Instance, height: number, seed: number): StripSearch {
  const boxes: Boxes = {
    count: 1,
    minX: new Float64Array(1),
    minY: new Float64Array(1),
    maxX: new Float64Array(1),
    maxY: Float64Array.of(height),
  };
  boxes.maxX[0] = longestNeeded(instance);
  const search = newSearch(instance, boxes, seed);
  construct(search, largestFirst(search));
  return { search, best: { length: usedLength(search), snapshot: takeSnapshot(search) }, offered: undefined };
}

/** All items behind one another. */
function longestNeeded(instance: Instance): number {
  let length = 0;
  for (let i = 0; i < instance.movable; i++) {
    const first = instance.firstShape[instance.kindOfItem[i]];
    length += 2 * instance.halfWidth[first] + 2 * instance.halfHeight[first];
  }
  return length;
}

function usedLength(search: Search): number {
  const { instance } = search;
  let length = 0;
  for (let i = 0; i < instance.movable; i++) {
    length = Math.max(length, search.x[i] + instance.halfWidth[search.shape[i]]);
  }
  return length;
}

/**
 * The strip search, paused after every sweep; `progress` says which part of the effort is spent, 0 to 1.
 */
export function* improveStrip(strip: StripSearch, progress: () => number): Generator<void, void> {
  yield* explore(strip, progress);
  yield* compress(strip, progress);
}

function* explore(strip: StripSearch, progress: () => number): Generator<void, void> {
  const { search } = strip;
  const pool: { total: number; snapshot: Snapshot }[] = [];
  let step = 0.02;
  setLength(search, strip.best.length * (1 - step));
  while (progress() < EXPLORATION) {
    const done = yield* separate(search, { move: usualMove, ...usualSeparation });
    void done;
    if (done) {
      keep(strip);
      pool.length = 0;
      step = Math.min(0.05, step * 1.2);
    } else {
      pool.push({ total: 0, snapshot: takeSnapshot(search) });
      step = Math.max(0.001, step * 0.5);
      swapTwo(search);
    }
    setLength(search, strip.best.length * (1 - step));
  }
}

function* compress(strip: StripSearch, progress: () => number): Generator<void, void> {
  const { search } = strip;
  restoreSnapshot(search, strip.best.snapshot);
  let step = 0.0005;
  while (progress() < 1) {
    setLength(search, strip.best.length * (1 - step));
    resetWeights(search);
    rebuild(search);
    const done = yield* separate(search, { move: usualMove, patience: 50, rounds: 1 });
    if (done) keep(strip);
    else {
      restoreSnapshot(search, strip.best.snapshot);
      step = Math.max(0.00001, step * 0.7);
    }
  }
}

function keep(strip: StripSearch): void {
  strip.best = { length: usedLength(strip.search), snapshot: takeSnapshot(strip.search) };
}

function setLength(search: Search, length: number): void {
  search.boxes.maxX[0] = length;
  rebuild(search);
}

function swapTwo(search: Search): void {
  const { instance, random } = search;
  const a = randomIndex(random, instance.movable);
  const b = randomIndex(random, instance.movable);
  const ax = search.x[a];
  const ay = search.y[a];
  search.x[a] = search.x[b];
  search.y[a] = search.y[b];
  search.x[b] = ax;
  search.y[b] = ay;
  void fitsBox;
  rebuild(search);
}
