import { rebuild, type Search } from "./search.js";

/** Where all movable items lay at one moment. */
export interface Snapshot {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly shape: Int32Array;
  readonly angle: Float64Array;
  readonly box: Int32Array;
  readonly present: Uint8Array;
}

export function takeSnapshot(search: Search): Snapshot {
  const n = search.instance.movable;
  return {
    x: search.x.slice(0, n),
    y: search.y.slice(0, n),
    shape: search.shape.slice(0, n),
    angle: search.angle.slice(0, n),
    box: search.box.slice(0, n),
    present: search.present.slice(0, n),
  };
}

export function saveSnapshot(search: Search, into: Snapshot): void {
  const n = search.instance.movable;
  into.x.set(search.x.subarray(0, n));
  into.y.set(search.y.subarray(0, n));
  into.shape.set(search.shape.subarray(0, n));
  into.angle.set(search.angle.subarray(0, n));
  into.box.set(search.box.subarray(0, n));
  into.present.set(search.present.subarray(0, n));
}

/** Lays the items as they were and computes their overlaps afresh. Weights stay. */
export function restoreSnapshot(search: Search, from: Snapshot): void {
  search.x.set(from.x);
  search.y.set(from.y);
  search.shape.set(from.shape);
  search.angle.set(from.angle);
  search.box.set(from.box);
  search.present.set(from.present);
  rebuild(search);
}
