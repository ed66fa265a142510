import { newOutlineEngine } from "../collision/outline-engine.js";
import type { Instance } from "../search/instance.js";
import { nofitEngine } from "../search/nofit-engine.js";
import { newSearch } from "../search/search.js";
import { compress } from "./compression.js";
import { explore } from "./exploration.js";
import { layoutOf, type StripLayout, type StripSearch } from "./strip-state.js";

/** A search that starts from a layout, or from a bottom-left one of its own. */
export function newStripSearch(
  instance: Instance,
  height: number,
  seed: number,
  progress: () => number,
  from?: StripLayout,
): StripSearch {
  const boxes = {
    count: 1,
    minX: new Float64Array(1),
    minY: new Float64Array(1),
    maxX: Float64Array.of(longestNeeded(instance)),
    maxY: Float64Array.of(height),
  };
  const free = instance.silhouettes.length > 0;
  const engine = free ? newOutlineEngine(instance) : nofitEngine;
  const search = newSearch(engine, instance, boxes, seed);
  if (from === undefined) engine.start(search);
  const least = leastLength(instance, height) * (1 + 1e-12);
  const strip: StripSearch = {
    search,
    best: from ?? layoutOf(search),
    offered: undefined,
    least,
    // Nothing is sought where nothing better can be found.
    progress: () => (strip.best.length <= least ? 1 : progress()),
    ...(free ? FREE : SET),
  };
  return strip;
}

/**
 * Layouts of outlines have slack that is taken out bit by bit, so compression has most to gain there; exact no-fit
 * regions leave it little. Measured on 30 triangles and on 32 mixed polygons at any angle in 40 s of one thread, two
 * seeds each: nothing between 15 and 75 % was clearly better, but with little exploration most of the gain comes early.
 */
const FREE = { exploration: 0.3, compressionStep: 0.003 };
const SET = { exploration: 0.75, compressionStep: 0.001 };

/** The search, paused after every sweep: exploration of ever shorter strips, then compression of the best. */
export function* improveStrip(strip: StripSearch): Generator<void, void> {
  yield* explore(strip);
  yield* compress(strip);
}

/** No strip is shorter: the items' area needs it, or the longest item does. */
function leastLength(instance: Instance, height: number): number {
  let area = 0;
  let longest = 0;
  for (let i = 0; i < instance.movable; i++) {
    const kind = instance.kindOfItem[i];
    area += instance.area[kind];
    if (instance.anyAngle[kind]) continue;
    const first = instance.firstShape[kind];
    const widths = instance.halfWidth.subarray(first, first + instance.shapeCount[kind]);
    longest = Math.max(longest, 2 * Math.min(...widths));
  }
  return Math.max(area / height, longest);
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
