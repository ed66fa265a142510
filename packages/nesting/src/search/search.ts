import { type Random, seededRandom } from "../random.js";
import { type Contacts, emptyContacts } from "./contacts.js";
import type { Engine } from "./engine.js";
import { enter, type Hash, leave, newHash, spreadOver } from "./hash.js";
import type { Instance } from "./instance.js";
import type { Around, Neighbours } from "./neighbours.js";
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
  readonly scratch: {
    readonly first: Place;
    readonly second: Place;
    readonly contacts: Contacts;
    readonly around: Around;
  };
  /** Overlaps no deeper than this are rounding. */
  readonly tolerance: number;
  /** Placement searches done. */
  steps: number;
  /** Evaluations of a whole placement done. */
  evaluations: number;
}

export function newSearch(engine: Engine, instance: Instance, boxes: Boxes, seed: number): Search {
  const { items, meanSize, firstShape, kindOfItem } = instance;
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
    hash: newHash(instance),
    neighbours: { count: 0, items: new Int32Array(items) },
    scratch: {
      first: emptyPlace(),
      second: emptyPlace(),
      contacts: emptyContacts(),
      around: { x: 0, y: 0, reach: 0, count: 0, items: new Int32Array(items) },
    },
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
  const { engine, boxes, instance, present, book } = search;
  spreadOver(search.hash, boxes, instance);
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
export function insert({ hash, instance, x, y, shape }: Search, item: number): void {
  const s = shape[item];
  enter(hash, item, x[item], y[item], instance.halfWidth[s], instance.halfHeight[s]);
}

/** Takes an item out of the hash. */
export function remove({ hash }: Search, item: number): void {
  leave(hash, item);
}
