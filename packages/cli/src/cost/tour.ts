import type { Point } from "@keelcut/geometry";

/** A closed contour to be cut: it can be entered at any of these points and is left where it was entered. */
export interface Stop {
  readonly entries: readonly Point[];
  /** Contours of a lower phase are all cut before those of a higher one. */
  readonly phase: number;
}

export interface Tour {
  /** Indices of the stops in the order of cutting. */
  readonly order: readonly number[];
  /** Where each stop is entered, in the order of cutting. */
  readonly entries: readonly Point[];
  /** Straight moves from the start through the entries and back to the start, mm. */
  readonly moves: readonly number[];
}

/** More rounds than 2-opt has needed on any layout; a stop for cycles of rounding, not a tuning knob. */
const MOST_ROUNDS = 200;
const LEAST_GAIN = 1e-9;

/**
 * A short tour from `start` through all stops and back: nearest neighbour, then 2-opt within each phase and the best entry
 * point of each stop between its neighbours, in turn until neither helps. Not the shortest tour; the same every time.
 */
export function shortTour(stops: readonly Stop[], start: Point): Tour {
  const order = nearestNeighbour(stops, start);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const swapped = untangle(order, start);
    const shifted = shiftEntries(order, start);
    if (!swapped && !shifted) break;
  }
  const path = [start, ...order.map((visit) => visit.entry), start];
  return {
    order: order.map((visit) => visit.index),
    entries: order.map((visit) => visit.entry),
    moves: path.slice(1).map((point, i) => distance(path[i] ?? start, point)),
  };
}

interface Visit {
  readonly index: number;
  readonly stop: Stop;
  entry: Point;
}

function nearestNeighbour(stops: readonly Stop[], start: Point): Visit[] {
  const visits: Visit[] = [];
  const phases = [...new Set(stops.map((stop) => stop.phase))].sort((a, b) => a - b);
  let here = start;
  for (const phase of phases) {
    const open = stops.flatMap((stop, index) => (stop.phase === phase ? [{ stop, index }] : []));
    while (open.length > 0) {
      let best = { at: 0, entry: here, length: Number.POSITIVE_INFINITY };
      for (const [at, candidate] of open.entries()) {
        const entry = nearest(candidate.stop, here, here);
        const length = distance(here, entry);
        if (length < best.length) best = { at, entry, length };
      }
      const [taken] = open.splice(best.at, 1);
      if (taken === undefined) break;
      visits.push({ ...taken, entry: best.entry });
      here = best.entry;
    }
  }
  return visits;
}

/** 2-opt: a stretch of one phase is run backwards when that shortens the tour. True when something changed. */
function untangle(order: Visit[], start: Point): boolean {
  let changed = false;
  for (let round = 0, improved = true; improved && round < MOST_ROUNDS; round++) {
    improved = false;
    for (let i = 0; i < order.length - 1; i++) {
      for (let j = i + 1; j < order.length && order[j]?.stop.phase === order[i]?.stop.phase; j++) {
        if (reversalGain(order, start, i, j) <= LEAST_GAIN) continue;
        reverse(order, i, j);
        improved = true;
        changed = true;
      }
    }
  }
  return changed;
}

function reversalGain(order: readonly Visit[], start: Point, i: number, j: number): number {
  const before = order[i - 1]?.entry ?? start;
  const after = order[j + 1]?.entry ?? start;
  const first = order[i]?.entry ?? start;
  const last = order[j]?.entry ?? start;
  return distance(before, first) + distance(last, after) - distance(before, last) - distance(first, after);
}

function reverse(order: Visit[], i: number, j: number): void {
  order.splice(i, j - i + 1, ...order.slice(i, j + 1).reverse());
}

function shiftEntries(order: readonly Visit[], start: Point): boolean {
  let changed = false;
  for (const [i, visit] of order.entries()) {
    const before = order[i - 1]?.entry ?? start;
    const after = order[i + 1]?.entry ?? start;
    const entry = nearest(visit.stop, before, after);
    const gain =
      distance(before, visit.entry) +
      distance(visit.entry, after) -
      distance(before, entry) -
      distance(entry, after);
    if (gain <= LEAST_GAIN) continue;
    visit.entry = entry;
    changed = true;
  }
  return changed;
}

function nearest(stop: Stop, before: Point, after: Point): Point {
  let best: Point | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const entry of stop.entries) {
    const length = distance(before, entry) + distance(entry, after);
    if (length < least) [best, least] = [entry, length];
  }
  if (best === undefined) throw new RangeError("a contour without a finite vertex cannot be cut");
  return best;
}

function distance(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}
