import type { Board } from "./board.js";
import { type Gaps, newGaps } from "./gaps.js";
import type { Oriented } from "./oriented.js";

/**
 * What makes one place better than another: the least of
 * `x of (middle + edge * (right end - middle)) + low * y of (middle + edge * (top - middle))`.
 */
export interface Taste {
  /** 0 judges a plate by the middle of its box, 1 by its right end. */
  readonly edge: number;
  /** How much a millimetre up weighs against one along; small and positive. */
  readonly low: number;
}

export interface Place {
  readonly x: number;
  readonly y: number;
  readonly score: number;
}

/** Where a search begins next time: every column left of it was found full. */
export interface Frontier {
  x: number;
}

/** Columns are at most this far apart, mm, or a tenth of the plate's length if that is more. */
const COLUMN_STEP = 4;
/** Candidates are gathered for stretches of this many steps. */
const STRETCH = 16;
/** The leftmost free column is found this exactly, mm. */
const SETTLED = 1e-7;
/** Columns closer than this are the same column, rounded differently, mm. */
const SAME = 1e-9;

/** Finds places for plates; holds nothing but scratch space. */
export class PlaceFinder {
  private readonly gaps: Gaps = newGaps();

  /**
   * The best place of a plate in one attitude among: columns through landmarks of what lies there, columns on a grid,
   * and the exact left end of the free stretch each of them is in. Undefined when there is none better than `limit`.
   */
  find(board: Board, plate: Oriented, taste: Taste, frontier: Frontier, limit: number): Place | undefined {
    const [first, last] = board.range(plate);
    const shiftX = plate.middle.x + taste.edge * (plate.body.box.maxX - plate.middle.x);
    const shiftY = plate.middle.y + taste.edge * (plate.body.box.maxY - plate.middle.y);
    const lowest = board.model.limits.minY - plate.rim.box.minY;
    const scoreAt = (x: number, y: number): number => x + shiftX + taste.low * (y + shiftY);

    let full = frontier.x > first ? frontier.x : undefined;
    let best: Place | undefined;
    let untouched = true;
    let bar = limit;
    for (const x of columns(board, plate, full ?? first, last)) {
      if (scoreAt(full ?? x, lowest) >= bar) break;
      if (best && scoreAt(x, lowest) >= bar) break;
      board.freeAt(plate, x, this.gaps);
      if (this.gaps.count === 0) {
        full = x;
        if (untouched) frontier.x = x;
        continue;
      }
      untouched = false;
      const y = this.gaps.ends[0] as number;
      const worthwhile = (left: number): boolean => scoreAt(left, lowest) < bar;
      const place = full === undefined ? { x, y } : this.leftmost(board, plate, full, { x, y }, worthwhile);
      full = undefined;
      const score = scoreAt(place.x, place.y);
      if (score < bar) {
        best = { ...place, score };
        bar = score;
      }
    }
    return best;
  }

  /** Halves the stretch between a full and a free column until its free end is settled, or no longer worthwhile. */
  private leftmost(
    board: Board,
    plate: Oriented,
    full: number,
    free: { x: number; y: number },
    worthwhile: (left: number) => boolean,
  ): { x: number; y: number } {
    let place = free;
    let left = full;
    while (place.x - left > SETTLED && worthwhile(left)) {
      const middle = (left + place.x) / 2;
      board.freeAt(plate, middle, this.gaps);
      if (this.gaps.count === 0) left = middle;
      else place = { x: middle, y: this.gaps.ends[0] as number };
    }
    return place;
  }
}

/** Columns to look at from left to right, from `first` to `last`, both included. */
function* columns(board: Board, plate: Oriented, first: number, last: number): Generator<number> {
  if (last < first) return;
  const { minX, maxX } = plate.body.box;
  const step = Math.max(COLUMN_STEP, (maxX - minX) / 10);
  let previous = Number.NEGATIVE_INFINITY;
  for (let from = first; ; from += step * STRETCH) {
    const to = Math.min(last, from + step * STRETCH);
    const found: number[] = [];
    const add = (x: number): void => {
      if (x >= from && x <= to) found.push(x);
    };
    for (let k = 0; k < STRETCH; k++) add(from + k * step);
    for (const end of board.ends) for (const landmark of plate.landmarks) add(end - landmark);
    for (const notch of board.notches) {
      add(notch - minX);
      add(notch - maxX);
    }
    add(last);
    found.sort((a, b) => a - b);
    for (const x of found) {
      if (x - previous <= SAME && x !== last) continue;
      yield x;
      previous = x;
    }
    if (to === last) return;
  }
}
