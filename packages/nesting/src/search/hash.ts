import type { Instance } from "./instance.js";

/**
 * A hash of the items' centres, through which their neighbours are found: cells of about the mean size, a linked list in
 * each. Items much larger than the rest (frames, long keep-outs, a few large plates among many small ones) are in a list of
 * their own, so they do not widen every look-up.
 */
export interface Hash {
  minX: number;
  minY: number;
  perUnit: number;
  columns: number;
  rows: number;
  head: Int32Array;
  readonly next: Int32Array;
  /** Four numbers an item, side by side in memory: x, y, half width and half height as it was entered. */
  readonly lie: Float64Array;
  /** Largest half width and height among the hashed items. */
  readonly reachX: number;
  readonly reachY: number;
  readonly large: Uint8Array;
  largeCount: number;
  readonly largeItems: Int32Array;
}

/** The rectangles the hash has to cover. */
interface Covered {
  readonly count: number;
  readonly minX: Float64Array;
  readonly minY: Float64Array;
  readonly maxX: Float64Array;
  readonly maxY: Float64Array;
}

/** An empty hash that covers nothing yet. */
export function newHash(instance: Instance): Hash {
  const { items, halfWidth, halfHeight, meanSize, firstShape, shapeCount, kindOfItem, movable } = instance;
  const large = new Uint8Array(items);
  const sizes = longestSides(instance);
  const largest = largeSize(instance, sizes);
  let reachX = 0;
  let reachY = 0;
  for (let i = 0; i < items; i++) {
    if (sizes[i] > (i < movable ? largest : LARGE * meanSize)) large[i] = 1;
    if (large[i]) continue;
    const first = firstShape[kindOfItem[i]];
    for (let s = first; s < first + shapeCount[kindOfItem[i]]; s++) {
      reachX = Math.max(reachX, halfWidth[s]);
      reachY = Math.max(reachY, halfHeight[s]);
    }
  }
  return {
    minX: 0,
    minY: 0,
    perUnit: 1,
    columns: 1,
    rows: 1,
    head: new Int32Array(0),
    next: new Int32Array(items).fill(-1),
    lie: new Float64Array(4 * items),
    reachX,
    reachY,
    large,
    largeCount: 0,
    largeItems: new Int32Array(items),
  };
}

/** Sizes the hash to the boxes and empties it. */
export function spreadOver(hash: Hash, boxes: Covered, { items, meanSize }: Instance): void {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (let b = 0; b < boxes.count; b++) {
    minX = Math.min(minX, boxes.minX[b]);
    minY = Math.min(minY, boxes.minY[b]);
    maxX = Math.max(maxX, boxes.maxX[b]);
    maxY = Math.max(maxY, boxes.maxY[b]);
  }
  const cells = 4 * items + 64;
  const cell = Math.max(meanSize, Math.sqrt(((maxX - minX) * (maxY - minY)) / cells));
  hash.minX = minX;
  hash.minY = minY;
  hash.perUnit = 1 / cell;
  hash.columns = Math.max(1, Math.ceil((maxX - minX) / cell));
  hash.rows = Math.max(1, Math.ceil((maxY - minY) / cell));
  if (hash.head.length < hash.columns * hash.rows) hash.head = new Int32Array(2 * hash.columns * hash.rows);
  hash.head.fill(-1);
  hash.largeCount = 0;
}

/** Enters an item with its centre and half its width and height. */
export function enter(
  hash: Hash,
  item: number,
  x: number,
  y: number,
  halfWidth: number,
  halfHeight: number,
): void {
  hash.lie[4 * item] = x;
  hash.lie[4 * item + 1] = y;
  hash.lie[4 * item + 2] = halfWidth;
  hash.lie[4 * item + 3] = halfHeight;
  if (hash.large[item]) {
    hash.largeItems[hash.largeCount++] = item;
    return;
  }
  const cell = cellOf(hash, x, y);
  hash.next[item] = hash.head[cell];
  hash.head[cell] = item;
}

/** Takes out an item that is in. */
export function leave(hash: Hash, item: number): void {
  if (hash.large[item]) {
    const at = hash.largeItems.indexOf(item);
    hash.largeItems[at] = hash.largeItems[--hash.largeCount];
    return;
  }
  const cell = cellOf(hash, hash.lie[4 * item], hash.lie[4 * item + 1]);
  let before = hash.head[cell];
  if (before === item) {
    hash.head[cell] = hash.next[item];
    return;
  }
  while (hash.next[before] !== item) before = hash.next[before];
  hash.next[before] = hash.next[item];
}

function cellOf(hash: Hash, x: number, y: number): number {
  const column = Math.max(0, Math.min(hash.columns - 1, ((x - hash.minX) * hash.perUnit) | 0));
  const row = Math.max(0, Math.min(hash.rows - 1, ((y - hash.minY) * hash.perUnit) | 0));
  return row * hash.columns + column;
}

/** Fixed items larger than so many times the mean size are looked at always instead of being hashed. */
const LARGE = 3;
/** The most movable items that are looked at always. */
const MOST_LARGE = 64;

/**
 * The size above which a movable item is large: that at which an evaluation has least to look at, which are the large items
 * and the cells in reach of the largest hashed one.
 */
function largeSize({ meanSize, movable }: Instance, sizes: Float64Array): number {
  const descending = sizes.slice(0, movable).sort().reverse();
  const lookedAt = (large: number): number => large + (2 + descending[large] / meanSize) ** 2;
  let best = 0;
  for (let k = 1; k < Math.min(MOST_LARGE + 1, movable); k++) if (lookedAt(k) < lookedAt(best)) best = k;
  return descending[best] ?? Number.POSITIVE_INFINITY;
}

/** The longer side of each item's box in the turn in which that is longest. */
function longestSides({
  items,
  kindOfItem,
  firstShape,
  shapeCount,
  halfWidth,
  halfHeight,
}: Instance): Float64Array {
  return Float64Array.from({ length: items }, (_, i) => {
    const first = firstShape[kindOfItem[i]];
    let longest = 0;
    for (let s = first; s < first + shapeCount[kindOfItem[i]]; s++) {
      longest = Math.max(longest, 2 * halfWidth[s], 2 * halfHeight[s]);
    }
    return longest;
  });
}
