import type { Point } from "@keelcut/geometry";
import { pointGrid } from "./point-grid.js";

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

/** Rounds of improvement; later ones gain next to nothing. */
const MOST_ROUNDS = 10;
const LEAST_GAIN = 1e-9;
const NEIGHBOURS = 10;

/**
 * A short tour from `start` through all stops and back: nearest neighbour, then 2-opt within each phase and the best entry
 * point of each stop between its neighbours, in turn until neither helps. Not the shortest tour; the same every time.
 */
export function shortTour(stops: readonly Stop[], start: Point): Tour {
  const order = nearestNeighbour(stops, start);
  const phases = phaseRanges(order);
  const near = new Map(phases.flatMap(([from, to]) => [...neighbours(order.slice(from, to + 1))]));
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const swapped = phases.map(([from, to]) => untangle(order, near, start, from, to)).includes(true);
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
  /** Position in the order. */
  at: number;
}

function nearestNeighbour(stops: readonly Stop[], start: Point): Visit[] {
  const visits: Visit[] = [];
  const phases = [...new Set(stops.map((stop) => stop.phase))].sort((a, b) => a - b);
  let here = start;
  for (const phase of phases) {
    const open = stops.flatMap((stop, index) => (stop.phase === phase ? [{ stop, index }] : []));
    const grid = pointGrid(open.map(({ stop }) => stop.entries));
    for (let found = grid.nearest(here); found !== undefined; found = grid.nearest(here)) {
      const taken = open[found.owner];
      if (taken === undefined) break;
      grid.remove(found.owner);
      visits.push({ ...taken, entry: found.point, at: visits.length });
      here = found.point;
    }
  }
  if (visits.length !== stops.length) throw new RangeError("a contour without a vertex cannot be cut");
  return visits;
}

/**
 * 2-opt: a stretch of one phase is run backwards when that shortens the tour. Only stretches that join a stop to one of its
 * nearest neighbours are tried, beside those at the ends of a phase: others hardly ever help, and all pairs of thousands of
 * holes take seconds. True when something changed.
 */
function untangle(
  order: Visit[],
  near: ReadonlyMap<Visit, readonly Visit[]>,
  start: Point,
  from: number,
  to: number,
): boolean {
  for (let at = from; at <= to; at++) place(order, at);
  let changed = false;
  const improve = (i: number, j: number): boolean => {
    if (i < from || j > to || i >= j || reversalGain(order, start, i, j) <= LEAST_GAIN) return false;
    for (let [low, high] = [i, j]; low < high; low++, high--) swap(order, low, high);
    changed = true;
    return true;
  };
  for (let round = 0, improved = true; improved && round < MOST_ROUNDS; round++) {
    improved = false;
    for (let at = from; at <= to; at++) {
      if (improve(from, at) || improve(at, to)) improved = true;
      const visit = order[at];
      if (visit === undefined) continue;
      for (const neighbour of near.get(visit) ?? []) {
        const [low, high] = [Math.min(visit.at, neighbour.at), Math.max(visit.at, neighbour.at)];
        // Reversing what lies between them makes the two follow each other, on either side.
        if (improve(low + 1, high) || improve(low, high - 1)) improved = true;
      }
    }
  }
  return changed;
}

/** First and last position of each phase. */
function phaseRanges(order: readonly Visit[]): [from: number, to: number][] {
  const ranges: [number, number][] = [];
  for (const [at, visit] of order.entries()) {
    const last = ranges.at(-1);
    if (last !== undefined && order[at - 1]?.stop.phase === visit.stop.phase) last[1] = at;
    else ranges.push([at, at]);
  }
  return ranges;
}

function swap(order: Visit[], i: number, j: number): void {
  const [a, b] = [order[i], order[j]];
  if (a === undefined || b === undefined) return;
  order[i] = b;
  order[j] = a;
  place(order, i);
  place(order, j);
}

function place(order: readonly Visit[], at: number): void {
  const visit = order[at];
  if (visit !== undefined) visit.at = at;
}

function neighbours(visits: readonly Visit[]): Map<Visit, Visit[]> {
  const grid = pointGrid(visits.map((visit) => [visit.entry]));
  return new Map(
    visits.map((visit, index) => {
      const owners = grid.owners(visit.entry, NEIGHBOURS, index);
      return [visit, owners.flatMap((owner) => visits[owner] ?? [])];
    }),
  );
}

function reversalGain(order: readonly Visit[], start: Point, i: number, j: number): number {
  const before = order[i - 1]?.entry ?? start;
  const after = order[j + 1]?.entry ?? start;
  const first = order[i]?.entry ?? start;
  const last = order[j]?.entry ?? start;
  return distance(before, first) + distance(last, after) - distance(before, last) - distance(first, after);
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
