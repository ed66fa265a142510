import { EDGE } from "../nofit/depth-field.js";
import type { Instance } from "./instance.js";
import { noteOverlaps, overlapAt } from "./overlap.js";
import { closeRow, openRow } from "./pair-book.js";
import { fitsBox, highX, highY, insert, lowX, lowY, type Search } from "./search.js";

/**
 * A first layout: items one after another, each at the lowest free touching place of the first box it fits.
 *
 * "Bottom left" (Baker, Coffman and Rivest 1980), over exact places as in Gomes and Oliveira 2002, "A 2-exchange
 * heuristic for nesting problems": corners of the box, corners of the no-fit regions of what already lies there, and
 * where their edges meet the box. Among a kind's shapes the one that ends lowest wins. "Low" is along x, then y.
 *
 * Each shape keeps its candidate places in a heap; a place found covered stays covered, so it is dropped for good and
 * every place is tested about once; those of a kind are forgotten after its last item. Cost: items * shapes * corners heap
 * steps and, for one kind, as many places of 40 bytes; 2,000 items of 20 kinds in some seconds.
 *
 * Returns how many of the items found a place; the others are not present.
 */
export function construct(search: Search, order: ArrayLike<number>): number {
  const { instance, book } = search;
  const places = Array.from({ length: instance.shapes }, (): Places => emptyPlaces());
  const laid: number[] = [];
  for (let i = instance.movable; i < instance.items; i++) if (search.present[i]) laid.push(i);
  const ahead = countsOf(instance, order);
  let placed = 0;
  for (let k = 0; k < order.length; k++) {
    const item = order[k];
    const kind = instance.kindOfItem[item];
    ahead[kind]--;
    let bestKey = Infinity;
    let bestShape = -1;
    const last = instance.firstShape[kind] + instance.shapeCount[kind];
    for (let shape = instance.firstShape[kind]; shape < last; shape++) {
      addPlaces(search, shape, laid, places[shape]);
      const key = lowestFree(search, item, shape, places[shape]);
      if (key + instance.halfWidth[shape] < bestKey) {
        bestKey = key + instance.halfWidth[shape];
        bestShape = shape;
      }
    }
    const taken = places[bestShape];
    if (ahead[kind] === 0) {
      for (let s = instance.firstShape[kind]; s < last; s++) places[s] = emptyPlaces();
    }
    if (taken === undefined) continue;
    const { x, y, box, heap } = taken;
    const place = heap[0];
    search.shape[item] = bestShape;
    search.x[item] = x[place];
    search.y[item] = y[place];
    search.box[item] = box[place];
    search.present[item] = 1;
    openRow(book, item);
    noteOverlaps(search, item);
    closeRow(book, item);
    insert(search, item);
    laid.push(item);
    placed++;
  }
  return placed;
}

/** How many items of each kind there are in an order. */
function countsOf({ kinds, kindOfItem }: Instance, order: ArrayLike<number>): Int32Array {
  const counts = new Int32Array(kinds);
  for (let k = 0; k < order.length; k++) counts[kindOfItem[order[k]]]++;
  return counts;
}

/** Items by falling area of their kind. */
export function largestFirst(search: Search): number[] {
  const { area, kindOfItem, movable } = search.instance;
  const order = Array.from({ length: movable }, (_, i) => i);
  return order.sort((a, b) => area[kindOfItem[b]] - area[kindOfItem[a]] || a - b);
}

/** Candidate places of one shape: a heap of numbers into the coordinates, lowest key on top. */
interface Places {
  readonly x: number[];
  readonly y: number[];
  readonly box: number[];
  readonly key: number[];
  readonly heap: number[];
  /** How many of the laid items have given their places. */
  seen: number;
  started: boolean;
}

function emptyPlaces(): Places {
  return { x: [], y: [], box: [], key: [], heap: [], seen: 0, started: false };
}

function addPlaces(search: Search, shape: number, laid: readonly number[], places: Places): void {
  const { boxes, instance } = search;
  const { entry, fields, shapes } = instance.pairs;
  if (!places.started) {
    places.started = true;
    for (let b = 0; b < boxes.count; b++) {
      if (!fitsBox(search, shape, b)) continue;
      addPlace(search, shape, b, lowX(search, shape, b), lowY(search, shape, b), places);
      addPlace(search, shape, b, lowX(search, shape, b), highY(search, shape, b), places);
    }
  }
  for (; places.seen < laid.length; places.seen++) {
    const j = laid[places.seen];
    const b = search.box[j];
    if (!fitsBox(search, shape, b)) continue;
    const e = entry[search.shape[j] * shapes + shape];
    if (e === 0) continue;
    const sign = e > 0 ? 1 : -1;
    const field = sign * e - 1;
    const end = fields.edgeStart[field + 1];
    for (let k = fields.edgeStart[field]; k < end; k++) {
      const px = search.x[j] + sign * fields.edges[EDGE * k];
      const py = search.y[j] + sign * fields.edges[EDGE * k + 1];
      const dx = sign * fields.edges[EDGE * k + 2];
      const dy = sign * fields.edges[EDGE * k + 3];
      addPlace(search, shape, b, px, py, places);
      for (const wall of [lowY(search, shape, b), highY(search, shape, b)]) {
        const t = (wall - py) / dy;
        if (t > 0 && t < 1) addPlace(search, shape, b, px + t * dx, wall, places);
      }
      const t = (lowX(search, shape, b) - px) / dx;
      if (t > 0 && t < 1) addPlace(search, shape, b, lowX(search, shape, b), py + t * dy, places);
    }
  }
}

function addPlace(search: Search, shape: number, box: number, x: number, y: number, places: Places): void {
  const slack = search.tolerance;
  const minX = lowX(search, shape, box);
  const minY = lowY(search, shape, box);
  const maxX = highX(search, shape, box);
  const maxY = highY(search, shape, box);
  if (x < minX - slack || x > maxX + slack || y < minY - slack || y > maxY + slack) return;
  const n = places.x.push(Math.max(minX, Math.min(maxX, x)));
  places.y.push(Math.max(minY, Math.min(maxY, y)));
  places.box.push(box);
  places.key.push(x + 1e-3 * (y - minY));
  const { heap, key } = places;
  let at = heap.push(n - 1) - 1;
  while (at > 0) {
    const parent = (at - 1) >> 1;
    if (key[heap[parent]] <= key[heap[at]]) break;
    [heap[parent], heap[at]] = [heap[at], heap[parent]];
    at = parent;
  }
}

/** Drops covered places until the top of the heap is free; returns its key, or Infinity when none is left. */
function lowestFree(search: Search, item: number, shape: number, places: Places): number {
  const { heap, key } = places;
  while (heap.length > 0) {
    const place = heap[0];
    if (overlapAt(search, item, shape, places.x[place], places.y[place], Number.MIN_VALUE) === 0)
      return key[place];
    const last = heap.pop() as number;
    if (heap.length === 0) break;
    heap[0] = last;
    let at = 0;
    for (;;) {
      const left = 2 * at + 1;
      if (left >= heap.length) break;
      const child = left + 1 < heap.length && key[heap[left + 1]] < key[heap[left]] ? left + 1 : left;
      if (key[heap[at]] <= key[heap[child]]) break;
      [heap[at], heap[child]] = [heap[child], heap[at]];
      at = child;
    }
  }
  return Infinity;
}
