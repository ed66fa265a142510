import { depthAt, type Nearest, nearestTo } from "../nofit/depth-field.js";
import { noteOverlap } from "./pair-book.js";
import type { Search } from "./search.js";

/**
 * What a placement costs: the sum over all other items of weight * scale * penetration depth.
 *
 * The item itself must be out of the hash and its row open in the pair book. Cost: the hash cells in reach, one box test
 * an item found there, and one depth look-up for those whose boxes overlap.
 */

/** The cost of laying `item` in a shape at (x, y); as soon as it reaches `limit`, some number >= limit. */
export function overlapAt(
  search: Search,
  item: number,
  shape: number,
  x: number,
  y: number,
  limit: number,
): number {
  search.evaluations++;
  const { instance, hash, book } = search;
  const { halfWidth, halfHeight, pairs, kindOfItem, scale } = instance;
  const xs = search.x;
  const ys = search.y;
  const shapes = search.shape;
  const tolerance = search.tolerance;
  const weights = book.rowWeight;
  const next = hash.next;
  const head = hash.head;
  const entry = pairs.entry;
  const fields = pairs.fields;
  const count = pairs.shapes;
  const halfW = halfWidth[shape];
  const halfH = halfHeight[shape];
  const kindRow = kindOfItem[item] * instance.kinds;
  let total = 0;
  for (let k = 0; k < hash.largeCount; k++) {
    const j = hash.largeItems[k];
    const dx = x - xs[j];
    const dy = y - ys[j];
    const s = shapes[j];
    const w = halfW + halfWidth[s];
    const h = halfH + halfHeight[s];
    if (dx >= w || dx <= -w || dy >= h || dy <= -h) continue;
    const e = entry[s * count + shape];
    const depth = e > 0 ? depthAt(fields, e - 1, dx, dy) : e < 0 ? depthAt(fields, -e - 1, -dx, -dy) : 0;
    if (depth > tolerance) {
      total += depth * weights[j] * scale[kindRow + kindOfItem[j]];
      if (total >= limit) return total;
    }
  }
  const u = (x - hash.minX) * hash.perUnit;
  const v = (y - hash.minY) * hash.perUnit;
  const reachU = (halfW + hash.reachX) * hash.perUnit;
  const reachV = (halfH + hash.reachY) * hash.perUnit;
  const lastColumn = Math.min(hash.columns - 1, (u + reachU) | 0);
  const lastRow = Math.min(hash.rows - 1, (v + reachV) | 0);
  const firstColumn = Math.max(0, (u - reachU) | 0);
  for (let row = Math.max(0, (v - reachV) | 0); row <= lastRow; row++) {
    const rowStart = row * hash.columns;
    for (let cell = rowStart + firstColumn; cell <= rowStart + lastColumn; cell++) {
      for (let j = head[cell]; j >= 0; j = next[j]) {
        const dx = x - xs[j];
        const dy = y - ys[j];
        const s = shapes[j];
        const w = halfW + halfWidth[s];
        const h = halfH + halfHeight[s];
        if (dx >= w || dx <= -w || dy >= h || dy <= -h) continue;
        const e = entry[s * count + shape];
        const depth = e > 0 ? depthAt(fields, e - 1, dx, dy) : e < 0 ? depthAt(fields, -e - 1, -dx, -dy) : 0;
        if (depth > tolerance) {
          total += depth * weights[j] * scale[kindRow + kindOfItem[j]];
          if (total >= limit) return total;
        }
      }
    }
  }
  return total;
}

/** Calls `visit` for every item whose box overlaps that of a shape at (x, y). For the outer loops. */
export function forNeighbours(
  search: Search,
  shape: number,
  x: number,
  y: number,
  visit: (item: number) => void,
): void {
  const { instance, hash } = search;
  const { halfWidth, halfHeight } = instance;
  const consider = (j: number): void => {
    const s = search.shape[j];
    if (
      Math.abs(x - search.x[j]) < halfWidth[shape] + halfWidth[s] &&
      Math.abs(y - search.y[j]) < halfHeight[shape] + halfHeight[s]
    ) {
      visit(j);
    }
  };
  for (let k = 0; k < hash.largeCount; k++) consider(hash.largeItems[k]);
  const u = (x - hash.minX) * hash.perUnit;
  const v = (y - hash.minY) * hash.perUnit;
  const reachU = (halfWidth[shape] + hash.reachX) * hash.perUnit;
  const reachV = (halfHeight[shape] + hash.reachY) * hash.perUnit;
  const lastColumn = Math.min(hash.columns - 1, (u + reachU) | 0);
  const lastRow = Math.min(hash.rows - 1, (v + reachV) | 0);
  for (let row = Math.max(0, (v - reachV) | 0); row <= lastRow; row++) {
    for (let column = Math.max(0, (u - reachU) | 0); column <= lastColumn; column++) {
      for (let j = hash.head[row * hash.columns + column]; j >= 0; j = hash.next[j]) consider(j);
    }
  }
}

/** Writes the overlaps of an item, where it lies, into the pair book. */
export function noteOverlaps(search: Search, item: number): void {
  forNeighbours(search, search.shape[item], search.x[item], search.y[item], (j) => {
    const depth = pairDepth(search, item, j);
    if (depth > search.tolerance) noteOverlap(search.book, item, j, depth);
  });
}

function pairDepth(search: Search, item: number, j: number): number {
  const { entry, fields, shapes } = search.instance.pairs;
  const dx = search.x[item] - search.x[j];
  const dy = search.y[item] - search.y[j];
  const e = entry[search.shape[j] * shapes + search.shape[item]];
  return e > 0 ? depthAt(fields, e - 1, dx, dy) : e < 0 ? depthAt(fields, -e - 1, -dx, -dy) : 0;
}

/** The boundary points that would part an item from each item it overlaps, with the edge each lies on. */
export interface Contacts {
  count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly edgeX: Float64Array;
  readonly edgeY: Float64Array;
}

/** At most this many overlaps are looked at when an item is slid free. */
const MOST_CONTACTS = 8;

export function emptyContacts(): Contacts {
  return {
    count: 0,
    x: new Float64Array(MOST_CONTACTS),
    y: new Float64Array(MOST_CONTACTS),
    edgeX: new Float64Array(MOST_CONTACTS),
    edgeY: new Float64Array(MOST_CONTACTS),
  };
}

const nearest: Nearest = { x: 0, y: 0, edge: 0 };

/** Fills `contacts` for a shape at (x, y). */
export function findContacts(search: Search, shape: number, x: number, y: number, contacts: Contacts): void {
  const { entry, fields, shapes } = search.instance.pairs;
  contacts.count = 0;
  forNeighbours(search, shape, x, y, (j) => {
    if (contacts.count === MOST_CONTACTS) return;
    const e = entry[search.shape[j] * shapes + shape];
    if (e === 0) return;
    const sign = e > 0 ? 1 : -1;
    const field = sign * e - 1;
    const depth = nearestTo(fields, field, sign * (x - search.x[j]), sign * (y - search.y[j]), nearest);
    if (depth <= search.tolerance) return;
    const c = contacts.count++;
    contacts.x[c] = search.x[j] + sign * nearest.x;
    contacts.y[c] = search.y[j] + sign * nearest.y;
    contacts.edgeX[c] = fields.edges[6 * nearest.edge + 2];
    contacts.edgeY[c] = fields.edges[6 * nearest.edge + 3];
  });
}
