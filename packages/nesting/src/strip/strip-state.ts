import { rebuild, resetWeights, type Search } from "../search/search.js";
import { restoreSnapshot, type Snapshot, takeSnapshot } from "../search/snapshot.js";

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
  /** No strip is shorter than this. */
  readonly least: number;
  /** Part of the effort spent, 0 to 1. */
  readonly progress: () => number;
  /** Share of the effort spent exploring; the rest compresses the best layout. */
  readonly exploration: number;
  /** The largest part of its length that compression takes off a layout at a time. */
  readonly compressionStep: number;
}

/** Keeps a layout if it is the shortest yet. */
export function keepIfBest(strip: StripSearch, layout: StripLayout): void {
  if (layout.length < strip.best.length) strip.best = layout;
}

/** The present layout, which must be without overlap. */
export function layoutOf(search: Search): StripLayout {
  return { length: usedLength(search), snapshot: takeSnapshot(search) };
}

/** Makes the offered layout the best one if it is shorter; returns whether it was. */
export function takeOffer(strip: StripSearch): boolean {
  const { offered } = strip;
  strip.offered = undefined;
  if (offered === undefined || offered.length >= strip.best.length) return false;
  strip.best = offered;
  return true;
}

/** Where the last item ends. */
export function usedLength(search: Search): number {
  const { instance } = search;
  let length = 0;
  for (let i = 0; i < instance.movable; i++) {
    length = Math.max(length, search.engine.rightEnd(search, i));
  }
  return length;
}

/** Lays the items as in a layout, on a strip of its length, weights at 1. */
export function restoreLayout(search: Search, layout: StripLayout): void {
  search.boxes.maxX[0] = layout.length;
  resetWeights(search);
  restoreSnapshot(search, layout.snapshot);
}

/** A length to try: no shorter than any strip can be. */
export function shortestWorth({ least }: StripSearch, length: number): number {
  return Math.max(least, length);
}

/**
 * Cuts the strip to a length, or the least there can be, by moving what lies right of a random cut to the left. Counts as a
 * step.
 */
export function shortenTo(strip: StripSearch, wanted: number): void {
  const { search } = strip;
  const length = shortestWorth(strip, wanted);
  search.steps++;
  const { engine, instance, boxes, random, x } = search;
  const by = boxes.maxX[0] - length;
  let end = 0;
  for (let i = 0; i < instance.movable; i++) end = Math.max(end, engine.rightEnd(search, i));
  const cut = random() * length;
  const shift = by - (boxes.maxX[0] - end);
  for (let i = 0; i < instance.movable; i++) if (x[i] > cut) x[i] -= shift;
  boxes.maxX[0] = length;
  rebuild(search);
}
