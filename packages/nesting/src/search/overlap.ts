import { depthAt, EDGE, type Nearest, nearestTo } from "../nofit/depth-field.js";
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
  const { instance, hash } = search;
  const { head, next, perUnit, columns } = hash;
  const halfW = instance.halfWidth[shape];
  const halfH = instance.halfHeight[shape];
  let total = 0;
  for (let k = 0; k < hash.largeCount; k++) {
    total += pairCost(search, item, shape, hash.largeItems[k], x, y, halfW, halfH);
    if (total >= limit) return total;
  }
  // The cell of the place itself first: what lies there overlaps most, and most places are dropped on its account.
  const u = (x - hash.minX) * perUnit;
  const v = (y - hash.minY) * perUnit;
  const own = Math.min(hash.rows - 1, v | 0) * columns + Math.min(columns - 1, u | 0);
  for (let j = head[own]; j >= 0; j = next[j]) {
    total += pairCost(search, item, shape, j, x, y, halfW, halfH);
    if (total >= limit) return total;
  }
  const reachU = (halfW + hash.reachX) * perUnit;
  const reachV = (halfH + hash.reachY) * perUnit;
  const firstColumn = Math.max(0, (u - reachU) | 0);
  const lastColumn = Math.min(columns - 1, (u + reachU) | 0);
  const lastRow = Math.min(hash.rows - 1, (v + reachV) | 0);
  for (let row = Math.max(0, (v - reachV) | 0); row <= lastRow; row++) {
    const rowStart = row * columns;
    for (let cell = rowStart + firstColumn; cell <= rowStart + lastColumn; cell++) {
      if (cell === own) continue;
      for (let j = head[cell]; j >= 0; j = next[j]) {
        total += pairCost(search, item, shape, j, x, y, halfW, halfH);
        if (total >= limit) return total;
      }
    }
  }
  return total;
}

function pairCost(
  search: Search,
  item: number,
  shape: number,
  j: number,
  x: number,
  y: number,
  halfW: number,
  halfH: number,
): number {
  const { instance, hash } = search;
  const lie = hash.lie;
  const dx = x - lie[4 * j];
  const w = halfW + lie[4 * j + 2];
  if (dx >= w || dx <= -w) return 0;
  const dy = y - lie[4 * j + 1];
  const h = halfH + lie[4 * j + 3];
  if (dy >= h || dy <= -h) return 0;
  const { pairs, kindOfItem } = instance;
  // The row of the moving shape: entries are antisymmetric.
  const e = pairs.entry[shape * pairs.shapes + search.shape[j]];
  if (e === 0) return 0;
  const depth = e < 0 ? depthAt(pairs.fields, -e - 1, dx, dy) : depthAt(pairs.fields, e - 1, -dx, -dy);
  if (depth <= search.tolerance) return 0;
  return depth * search.book.rowWeight[j] * instance.scale[kindOfItem[item] * instance.kinds + kindOfItem[j]];
}

/** Items whose box overlaps that of the shape last asked about. */
export interface Neighbours {
  count: number;
  items: Int32Array;
}

/** Fills `neighbours` with every item whose box overlaps that of a shape at (x, y). */
export function findNeighbours(search: Search, shape: number, x: number, y: number): Neighbours {
  const { instance, hash, neighbours } = search;
  const halfW = instance.halfWidth[shape];
  const halfH = instance.halfHeight[shape];
  neighbours.count = 0;
  for (let k = 0; k < hash.largeCount; k++) addNeighbour(search, hash.largeItems[k], x, y, halfW, halfH);
  const u = (x - hash.minX) * hash.perUnit;
  const v = (y - hash.minY) * hash.perUnit;
  const reachU = (halfW + hash.reachX) * hash.perUnit;
  const reachV = (halfH + hash.reachY) * hash.perUnit;
  const firstColumn = Math.max(0, (u - reachU) | 0);
  const lastColumn = Math.min(hash.columns - 1, (u + reachU) | 0);
  const lastRow = Math.min(hash.rows - 1, (v + reachV) | 0);
  for (let row = Math.max(0, (v - reachV) | 0); row <= lastRow; row++) {
    for (let column = firstColumn; column <= lastColumn; column++) {
      for (let j = hash.head[row * hash.columns + column]; j >= 0; j = hash.next[j]) {
        addNeighbour(search, j, x, y, halfW, halfH);
      }
    }
  }
  return neighbours;
}

function addNeighbour(search: Search, j: number, x: number, y: number, halfW: number, halfH: number): void {
  const { hash, neighbours } = search;
  const lie = hash.lie;
  if (Math.abs(x - lie[4 * j]) >= halfW + lie[4 * j + 2]) return;
  if (Math.abs(y - lie[4 * j + 1]) >= halfH + lie[4 * j + 3]) return;
  neighbours.items[neighbours.count++] = j;
}

/** Writes the overlaps of an item, where it lies, into the pair book. */
export function noteOverlaps(search: Search, item: number): void {
  const { entry, fields, shapes } = search.instance.pairs;
  const shape = search.shape[item];
  const x = search.x[item];
  const y = search.y[item];
  const { items, count } = findNeighbours(search, shape, x, y);
  for (let k = 0; k < count; k++) {
    const j = items[k];
    const e = entry[search.shape[j] * shapes + shape];
    if (e === 0) continue;
    const sign = e > 0 ? 1 : -1;
    const depth = depthAt(fields, sign * e - 1, sign * (x - search.x[j]), sign * (y - search.y[j]));
    if (depth > search.tolerance) noteOverlap(search.book, item, j, depth);
  }
}

/** The boundary points that would part an item from each item it overlaps, with the edge each lies on. */
export interface Contacts {
  count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly edgeX: Float64Array;
  readonly edgeY: Float64Array;
  /** Scratch for the look-up. */
  readonly nearest: Nearest;
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
    nearest: { x: 0, y: 0, edge: 0 },
  };
}

/** Fills `contacts` for a shape at (x, y). */
export function findContacts(search: Search, shape: number, x: number, y: number, contacts: Contacts): void {
  const { entry, fields, shapes } = search.instance.pairs;
  const { items, count } = findNeighbours(search, shape, x, y);
  const { nearest } = contacts;
  contacts.count = 0;
  for (let k = 0; k < count && contacts.count < MOST_CONTACTS; k++) {
    const j = items[k];
    const e = entry[search.shape[j] * shapes + shape];
    if (e === 0) continue;
    const sign = e > 0 ? 1 : -1;
    const depth = nearestTo(
      fields,
      sign * e - 1,
      sign * (x - search.x[j]),
      sign * (y - search.y[j]),
      nearest,
    );
    if (depth <= search.tolerance) continue;
    const c = contacts.count++;
    contacts.x[c] = search.x[j] + sign * nearest.x;
    contacts.y[c] = search.y[j] + sign * nearest.y;
    contacts.edgeX[c] = fields.edges[EDGE * nearest.edge + 2];
    contacts.edgeY[c] = fields.edges[EDGE * nearest.edge + 3];
  }
}
