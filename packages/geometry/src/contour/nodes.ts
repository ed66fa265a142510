import type { Point } from "./contour.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween } from "./vector.js";

/** Points numbered so that points closer than the tolerance share a number; the first one seen gives the coordinates. */
export interface NodeSet {
  readonly points: Point[];
  numberOf(point: Point): number;
}

const CELL = 4 * TOLERANCE;

/** Points are found through a hash of the square cell they lie in; a point near a cell's side is looked up in both cells. */
export function createNodes(): NodeSet {
  const points: Point[] = [];
  const cells = new Map<number, number[]>();
  const find = (point: Point): number | undefined => {
    for (const key of keysAround(point)) {
      for (const candidate of cells.get(key) ?? []) {
        const known = points[candidate];
        if (known !== undefined && distanceBetween(known, point) <= TOLERANCE) return candidate;
      }
    }
    return undefined;
  };
  const add = (point: Point): number => {
    const id = points.push({ x: point.x, y: point.y }) - 1;
    const key = cellKey(Math.floor(point.x / CELL), Math.floor(point.y / CELL));
    const cell = cells.get(key);
    if (cell === undefined) cells.set(key, [id]);
    else cell.push(id);
    return id;
  };
  return { points, numberOf: (point) => find(point) ?? add(point) };
}

function keysAround(point: Point): number[] {
  const left = Math.floor((point.x - TOLERANCE) / CELL);
  const right = Math.floor((point.x + TOLERANCE) / CELL);
  const low = Math.floor((point.y - TOLERANCE) / CELL);
  const high = Math.floor((point.y + TOLERANCE) / CELL);
  const keys = [cellKey(left, low)];
  if (right !== left) keys.push(cellKey(right, low));
  if (high !== low) keys.push(cellKey(left, high));
  if (right !== left && high !== low) keys.push(cellKey(right, high));
  return keys;
}

/** Cells far apart may share a key: distances decide, the key only narrows the search. */
function cellKey(column: number, row: number): number {
  return Math.imul(column % 2147483647, 73856093) ^ Math.imul(row % 2147483647, 19349663);
}
