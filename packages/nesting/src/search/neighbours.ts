import type { Search } from "./search.js";

/** Items whose box overlaps that of the shape last asked about. */
export interface Neighbours {
  count: number;
  items: Int32Array;
}

/** The items that a shape can meet wherever its centre lies no farther than `reach` from (x, y), in either direction. */
export interface Around {
  x: number;
  y: number;
  reach: number;
  count: number;
  readonly items: Int32Array;
}

/** Fills `neighbours` with every item whose box overlaps that of a shape at (x, y), grown by `reach` on all sides. */
export function findNeighbours(search: Search, shape: number, x: number, y: number, reach = 0): Neighbours {
  const { instance, hash, neighbours } = search;
  const halfW = instance.halfWidth[shape] + reach;
  const halfH = instance.halfHeight[shape] + reach;
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
