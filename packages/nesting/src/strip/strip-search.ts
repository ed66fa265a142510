import { newOutlineEngine } from "../collision/outline-engine.js";
import type { Instance } from "../search/instance.js";
import { nofitEngine } from "../search/nofit-engine.js";
import { newSearch } from "../search/search.js";
import { takeSnapshot } from "../search/separation.js";
import { compress } from "./compression.js";
import { explore } from "./exploration.js";
import { type StripSearch, usedLength } from "./strip-state.js";

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
  const engine = instance.silhouettes.length > 0 ? newOutlineEngine(instance) : nofitEngine;
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
