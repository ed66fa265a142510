import { type Random, seededRandom } from "../random.js";
import type { Engine } from "./engine.js";
import type { Instance } from "./instance.js";
import { type Contacts, emptyContacts, type Neighbours } from "./overlap.js";
import { clearBook, closeRow, emptyPairBook, openRow, type PairBook } from "./pair-book.js";
import { emptyPlace, type Place } from "./place.js";

/** The rectangles items may lie in, all in one plane and so far apart that items in different ones never meet. */
export interface Boxes {
  readonly count: number;
  readonly minX: Float64Array;
  readonly minY: Float64Array;
  readonly maxX: Float64Array;
  readonly maxY: Float64Array;
}

/**
 * The state of one search: where every item lies, in which shape, and what overlaps.
 *
 * Items are found through a hash of their centres: cells of about the mean size, a linked list in each. Fixed items and a
 * few movable ones much larger than the rest (frames, long keep-outs) are in a list of their own, so they do not widen
 * every look-up.
 */
export interface Search {
  readonly engine: Engine;
  readonly instance: Instance;
  readonly boxes: Boxes;
  readonly random: Random;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly shape: Int32Array;
  /** Turn beyond that of the shape, radians; only for kinds that may lie at any angle. */
  readonly angle: Float64Array;
  readonly box: Int32Array;
  /** 1 when the item lies in the plane; an item being moved, or left out, does not. */
  readonly present: Uint8Array;
  readonly book: PairBook;
  readonly hash: Hash;
  /** The answer of `findNeighbours`. */
  readonly neighbours: Neighbours;
  /** Reused by every move, so that moving allocates nothing. */
  readonly scratch: { readonly first: Place; readonly second: Place; readonly contacts: Contacts };
  /** Overlaps no deeper than this are rounding. */
  readonly tolerance: number;
  /** Placement searches done. */
  steps: number;
  /** Evaluations of a whole placement done. */
  evaluations: number;
}

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

/** Items larger than so many times the mean size are looked at always instead of being hashed, but few movable ones. */
const LARGE = 3;
const MOST_LARGE = 8;

/** The size above which an item is large. */
function largeSize({ meanSize, movable }: Instance, sizes: Float64Array): number {
  const descending = sizes.slice(0, movable).sort().reverse();
  return Math.max(LARGE * meanSize, descending[MOST_LARGE] ?? 0);
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

export function newSearch(engine: Engine, instance: Instance, boxes: Boxes, seed: number): Search {
  const { items, halfWidth, halfHeight, meanSize, firstShape, kindOfItem } = instance;
  const large = new Uint8Array(items);
  const sizes = longestSides(instance);
  const largest = largeSize(instance, sizes);
  let reachX = 0;
  let reachY = 0;
  for (let i = 0; i < items; i++) {
    if (sizes[i] > (i < instance.movable ? largest : LARGE * meanSize)) large[i] = 1;
    if (large[i]) continue;
    const first = firstShape[kindOfItem[i]];
    for (let s = first; s < first + instance.shapeCount[kindOfItem[i]]; s++) {
      reachX = Math.max(reachX, halfWidth[s]);
      reachY = Math.max(reachY, halfHeight[s]);
    }
  }
  const search: Search = {
    engine,
    instance,
    boxes,
    random: seededRandom(seed),
    x: new Float64Array(items),
    y: new Float64Array(items),
    shape: Int32Array.from(kindOfItem, (k) => firstShape[k]),
    angle: new Float64Array(items),
    box: new Int32Array(items),
    present: new Uint8Array(items),
    book: emptyPairBook(items),
    hash: {
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
    },
    neighbours: { count: 0, items: new Int32Array(items) },
    scratch: { first: emptyPlace(), second: emptyPlace(), contacts: emptyContacts() },
    tolerance: 1e-9 * meanSize,
    steps: 0,
    evaluations: 0,
  };
  for (let i = instance.movable; i < items; i++) {
    const b = instance.fixedBox[i - instance.movable];
    search.box[i] = b;
    search.x[i] = boxes.minX[b] + instance.fixedX[i - instance.movable];
    search.y[i] = boxes.minY[b] + instance.fixedY[i - instance.movable];
    search.present[i] = 1;
  }
  rebuild(search);
  return search;
}

/** Lowest and highest place of a shape's centre in a box; a shape that fits exactly has one place. */
export function lowX(search: Search, shape: number, box: number): number {
  return search.boxes.minX[box] + search.instance.halfWidth[shape];
}
export function highX(search: Search, shape: number, box: number): number {
  return Math.max(lowX(search, shape, box), search.boxes.maxX[box] - search.instance.halfWidth[shape]);
}
export function lowY(search: Search, shape: number, box: number): number {
  return search.boxes.minY[box] + search.instance.halfHeight[shape];
}
export function highY(search: Search, shape: number, box: number): number {
  return Math.max(lowY(search, shape, box), search.boxes.maxY[box] - search.instance.halfHeight[shape]);
}

/** Whether a shape is small enough for a box. */
export function fitsBox(search: Search, shape: number, box: number): boolean {
  const { instance, boxes, tolerance } = search;
  return (
    2 * instance.halfWidth[shape] <= boxes.maxX[box] - boxes.minX[box] + tolerance &&
    2 * instance.halfHeight[shape] <= boxes.maxY[box] - boxes.minY[box] + tolerance
  );
}

/** A shape of the item's kind that is small enough for its box; the present one when none is. */
export function fittingShape(search: Search, item: number): number {
  const { instance, shape, box } = search;
  const kind = instance.kindOfItem[item];
  const first = instance.firstShape[kind];
  for (let s = first; s < first + instance.shapeCount[kind]; s++) if (fitsBox(search, s, box[item])) return s;
  return shape[item];
}

/** Puts every present movable item back within its box, and computes hash and overlaps afresh. Weights stay. */
export function rebuild(search: Search): void {
  const { engine, instance, present, book } = search;
  layOutHash(search);
  for (let r = 0; r < book.size; r++) book.overlap[r] = 0;
  book.conflicts.fill(0);
  for (let i = instance.movable; i < instance.items; i++) if (present[i]) insert(search, i);
  for (let i = 0; i < instance.movable; i++) {
    if (!present[i]) continue;
    engine.keepInBox(search, i);
    openRow(book, i);
    engine.noteOverlaps(search, i);
    closeRow(book, i);
    insert(search, i);
  }
}

/** Forgets all weights. Call `rebuild` after it. */
export function resetWeights(search: Search): void {
  clearBook(search.book);
}

/** Enters an item into the hash at its present place. */
export function insert(search: Search, item: number): void {
  const { hash, x, y } = search;
  hash.lie[4 * item] = x[item];
  hash.lie[4 * item + 1] = y[item];
  hash.lie[4 * item + 2] = search.instance.halfWidth[search.shape[item]];
  hash.lie[4 * item + 3] = search.instance.halfHeight[search.shape[item]];
  if (hash.large[item]) {
    hash.largeItems[hash.largeCount++] = item;
    return;
  }
  const cell = cellOf(hash, x[item], y[item]);
  hash.next[item] = hash.head[cell];
  hash.head[cell] = item;
}

/** Takes an item out of the hash. */
export function remove(search: Search, item: number): void {
  const { hash } = search;
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

/** Sizes the hash to the boxes and empties it. */
function layOutHash(search: Search): void {
  const { hash, boxes, instance } = search;
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
  const cells = 4 * instance.items + 64;
  const cell = Math.max(instance.meanSize, Math.sqrt(((maxX - minX) * (maxY - minY)) / cells));
  hash.minX = minX;
  hash.minY = minY;
  hash.perUnit = 1 / cell;
  hash.columns = Math.max(1, Math.ceil((maxX - minX) / cell));
  hash.rows = Math.max(1, Math.ceil((maxY - minY) / cell));
  if (hash.head.length < hash.columns * hash.rows) hash.head = new Int32Array(2 * hash.columns * hash.rows);
  hash.head.fill(-1);
  hash.largeCount = 0;
}
