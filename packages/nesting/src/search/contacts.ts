import { EDGE, type Nearest, nearestTo } from "../nofit/depth-field.js";
import { findNeighbours } from "./neighbours.js";
import type { Search } from "./search.js";

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
      search.tolerance,
      nearest,
    );
    if (depth === 0) continue;
    const c = contacts.count++;
    contacts.x[c] = search.x[j] + sign * nearest.x;
    contacts.y[c] = search.y[j] + sign * nearest.y;
    contacts.edgeX[c] = fields.edges[EDGE * nearest.edge + 2];
    contacts.edgeY[c] = fields.edges[EDGE * nearest.edge + 3];
  }
}
