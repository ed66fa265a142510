import type { Point } from "@keelcut/geometry";

/** Points of numbered owners in square cells, for finding near ones without looking at all. */
export interface PointGrid {
  /** The nearest point to `here`, or `undefined` when none is left. Of equally near ones the lowest owner's. */
  readonly nearest: (here: Point) => Found | undefined;
  /** Up to `count` owners nearest to `here`, the nearest first, `except` left out. */
  readonly owners: (here: Point, count: number, except: number) => number[];
  /** Takes an owner's points out. */
  readonly remove: (owner: number) => void;
}

export interface Found {
  readonly owner: number;
  readonly point: Point;
  readonly distance: number;
}

/** A grid of about one point a cell. `points[i]` are the points of owner i. */
export function pointGrid(points: readonly (readonly Point[])[]): PointGrid {
  const all = points.flat();
  const xs = extremes(all.map((point) => point.x));
  const ys = extremes(all.map((point) => point.y));
  const cell = Math.max(
    Math.sqrt(((xs.high - xs.low) * (ys.high - ys.low)) / Math.max(1, all.length)),
    1e-6,
    (xs.high - xs.low + ys.high - ys.low) / 2000,
  );
  const columns = Math.floor((xs.high - xs.low) / cell) + 1;
  const rows = Math.floor((ys.high - ys.low) / cell) + 1;
  const cells = new Map<number, Found[]>();
  const columnOf = (x: number): number => Math.min(columns - 1, Math.max(0, Math.floor((x - xs.low) / cell)));
  const rowOf = (y: number): number => Math.min(rows - 1, Math.max(0, Math.floor((y - ys.low) / cell)));
  for (const [owner, own] of points.entries()) {
    for (const point of own) {
      const key = rowOf(point.y) * columns + columnOf(point.x);
      const found = { owner, point, distance: 0 };
      const there = cells.get(key);
      if (there === undefined) cells.set(key, [found]);
      else there.push(found);
    }
  }
  const removed = new Set<number>();

  /** Visits what is in the ring of cells `ring` steps around the cell of `here`. */
  const visitRing = (here: Point, ring: number, visit: (found: Found) => void): void => {
    const [column, row] = [columnOf(here.x), rowOf(here.y)];
    for (let y = Math.max(0, row - ring); y <= Math.min(rows - 1, row + ring); y++) {
      const edge = Math.abs(y - row) === ring;
      for (let x = column - ring; x <= column + ring; x += edge || ring === 0 ? 1 : 2 * ring) {
        if (x < 0 || x >= columns) continue;
        for (const entry of cells.get(y * columns + x) ?? []) {
          if (removed.has(entry.owner)) continue;
          visit({ ...entry, distance: Math.hypot(entry.point.x - here.x, entry.point.y - here.y) });
        }
      }
    }
  };
  /** No point outside the rings up to `ring` is nearer than this; `here` itself may lie outside the grid. */
  const beyond = (here: Point, ring: number): number => {
    const outside = Math.hypot(
      Math.max(0, xs.low - here.x, here.x - xs.high),
      Math.max(0, ys.low - here.y, here.y - ys.high),
    );
    return Math.max(0, ring * cell - outside);
  };
  const last = Math.max(columns, rows);

  return {
    nearest: (here) => {
      let best: Found | undefined;
      for (let ring = 0; ring <= last; ring++) {
        visitRing(here, ring, (found) => {
          const difference = best === undefined ? -1 : found.distance - best.distance;
          if (difference < 0 || (difference === 0 && found.owner < (best?.owner ?? 0))) best = found;
        });
        if (best !== undefined && beyond(here, ring) > best.distance) break;
      }
      return best;
    },
    owners: (here, count, except) => {
      const near = new Map<number, number>();
      let ring = 0;
      const sorted = (): [number, number][] =>
        [...near].sort((a, b) => a[1] - b[1] || a[0] - b[0]).slice(0, count);
      for (; ring <= last; ring++) {
        visitRing(here, ring, ({ owner, distance }) => {
          if (owner !== except)
            near.set(owner, Math.min(distance, near.get(owner) ?? Number.POSITIVE_INFINITY));
        });
        if (near.size >= count && (sorted().at(-1)?.[1] ?? 0) <= beyond(here, ring)) break;
      }
      return sorted().map(([owner]) => owner);
    },
    remove: (owner) => {
      removed.add(owner);
    },
  };
}

function extremes(values: readonly number[]): { low: number; high: number } {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (!Number.isFinite(value)) throw new RangeError("a contour without finite vertices cannot be cut");
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return { low, high };
}
