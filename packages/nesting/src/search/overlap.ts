import { depthAt } from "../nofit/depth-field.js";
import { findNeighbours } from "./neighbours.js";
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

/** The same, for a place near the one where the items around were gathered; elsewhere it looks through the hash. */
export function overlapNear(
  search: Search,
  item: number,
  shape: number,
  x: number,
  y: number,
  limit: number,
): number {
  const { x: midX, y: midY, reach, items, count } = search.scratch.around;
  if (Math.abs(x - midX) > reach || Math.abs(y - midY) > reach)
    return overlapAt(search, item, shape, x, y, limit);
  search.evaluations++;
  const halfW = search.instance.halfWidth[shape];
  const halfH = search.instance.halfHeight[shape];
  let total = 0;
  for (let k = 0; k < count; k++) {
    total += pairCost(search, item, shape, items[k], x, y, halfW, halfH);
    if (total >= limit) return total;
  }
  return total;
}

/** Gathers the items that a shape can meet near (x, y), those it meets there first. */
export function gatherAround(search: Search, shape: number, x: number, y: number): void {
  const { scratch, instance, hash } = search;
  const { around } = scratch;
  around.x = x;
  around.y = y;
  around.reach = REACH * instance.meanSize;
  const { items, count } = findNeighbours(search, shape, x, y, around.reach);
  const halfW = instance.halfWidth[shape];
  const halfH = instance.halfHeight[shape];
  const lie = hash.lie;
  let [front, back] = [0, count];
  for (let k = 0; k < count; k++) {
    const j = items[k];
    const meets =
      Math.abs(x - lie[4 * j]) < halfW + lie[4 * j + 2] &&
      Math.abs(y - lie[4 * j + 1]) < halfH + lie[4 * j + 3];
    around.items[meets ? front++ : --back] = j;
  }
  around.count = count;
}

/** How far around a place items are gathered, in mean sizes: a refinement seldom goes farther. */
const REACH = 0.35;

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
  const { tolerance } = search;
  const depth =
    e < 0
      ? depthAt(pairs.fields, -e - 1, dx, dy, tolerance)
      : depthAt(pairs.fields, e - 1, -dx, -dy, tolerance);
  if (depth === 0) return 0;
  return depth * search.book.rowWeight[j] * instance.scale[kindOfItem[item] * instance.kinds + kindOfItem[j]];
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
    const [dx, dy] = [sign * (x - search.x[j]), sign * (y - search.y[j])];
    const depth = depthAt(fields, sign * e - 1, dx, dy, search.tolerance);
    if (depth > 0) noteOverlap(search.book, item, j, depth);
  }
}
