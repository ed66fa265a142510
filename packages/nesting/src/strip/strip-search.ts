import { outlineEngine } from "../collision/outline-engine.js";
import type { Instance } from "../search/instance.js";
import { nofitEngine } from "../search/nofit-engine.js";
import { newSearch, type Search } from "../search/search.js";
import { type Snapshot, takeSnapshot } from "../search/separation.js";
import { compress } from "./compression.js";
import { explore } from "./exploration.js";

/** A valid layout of a strip and the length it needs. */
export interface StripLayout {
  readonly length: number;
  readonly snapshot: Snapshot;
}

/** One seeded search for a shorter strip. */
export interface StripSearch {
  readonly search: Search;
  best: StripLayout;
  /** The best layout of other streams, taken over where that makes sense. */
  offered: StripLayout | undefined;
  /** Part of the effort spent, 0 to 1. */
  readonly progress: () => number;
}

/** Share of the effort spent exploring; the rest compresses the best layout. */
export const EXPLORATION = 0.75;

/** A search that starts from a bottom-left layout. */
export function newStripSearch(
  instance: Instance,
  height: number,
  seed: number,
  progress: () => number,
): StripSearch {
  const boxes = {
    count: 1,
    minX: new Float64Array(1),
    minY: new Float64Array(1),
    maxX: Float64Array.of(longestNeeded(instance)),
    maxY: Float64Array.of(height),
  };
  const engine = instance.silhouettes.length > 0 ? outlineEngine : nofitEngine;
  const search = newSearch(engine, instance, boxes, seed);
  engine.start(search);
  return {
    search,
    best: { length: usedLength(search), snapshot: takeSnapshot(search) },
    offered: undefined,
    progress,
  };
}

/** The search, paused after every sweep: exploration of ever shorter strips, then compression of the best. */
export function* improveStrip(strip: StripSearch): Generator<void, void> {
  yield* explore(strip);
  yield* compress(strip);
}

/** Keeps the present layout, which must be without overlap, if it is the shortest yet. */
export function keepIfBest(strip: StripSearch): void {
  const length = usedLength(strip.search);
  if (length >= strip.best.length) return;
  strip.best = { length, snapshot: takeSnapshot(strip.search) };
}

/** Makes the offered layout the best one if it is shorter; returns whether it was. */
export function takeOffer(strip: StripSearch): boolean {
  const { offered } = strip;
  strip.offered = undefined;
  if (offered === undefined || offered.length >= strip.best.length) return false;
  strip.best = offered;
  return true;
}

function usedLength(search: Search): number {
  const { instance } = search;
  let length = 0;
  for (let i = 0; i < instance.movable; i++) {
    length = Math.max(length, search.engine.rightEnd(search, i));
  }
  return length;
}

/** All items behind one another. */
function longestNeeded(instance: Instance): number {
  let length = 0;
  for (let i = 0; i < instance.movable; i++) {
    const kind = instance.kindOfItem[i];
    let width = 0;
    for (let k = 0; k < instance.shapeCount[kind]; k++) {
      width = Math.max(width, 2 * instance.halfWidth[instance.firstShape[kind] + k]);
    }
    length += width;
  }
  return length;
}
