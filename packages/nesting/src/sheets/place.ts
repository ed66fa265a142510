import type { Board } from "./board.js";
import { Columns } from "./columns.js";
import { type Gaps, newGaps } from "./gaps.js";
import type { Oriented } from "./oriented.js";

/**
 * What makes one place better than another: the least of
 * `x of (middle + edge * (right end - middle)) + low * y of (middle + edge * (top - middle))`.
 */
export interface Taste {
  /** 0 judges a plate by the middle of its box, 1 by its right end. */
  readonly edge: number;
  /** How much a millimetre up weighs against one along; small. When negative, up is liked instead of down. */
  readonly low: number;
  /** Among the free gaps of a column the shortest is taken instead of the lowest. */
  readonly snug?: boolean;
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

/** The leftmost free column is found this exactly, mm. */
const SETTLED = 1e-7;

/** Finds places for plates; holds nothing but scratch space. */
export class PlaceFinder {
  private readonly gaps: Gaps = newGaps();
  private readonly columns = new Columns();

  /**
   * The best place of a plate in one attitude among: columns through landmarks of what lies there, columns on a grid,
   * and the exact left end of the free stretch each of them is in. Undefined when there is none better than `limit`.
   */
  find(board: Board, plate: Oriented, taste: Taste, frontier: Frontier, limit: number): Place | undefined {
    const [first, last] = board.range(plate);
    const shiftX = plate.middle.x + taste.edge * (plate.body.box.maxX - plate.middle.x);
    const shiftY = plate.middle.y + taste.edge * (plate.body.box.maxY - plate.middle.y);
    // The best y there could be.
    const liked =
      taste.low < 0
        ? board.model.limits.maxY - plate.rim.box.maxY
        : board.model.limits.minY - plate.rim.box.minY;
    const scoreAt = (x: number, y: number): number => x + shiftX + taste.low * (y + shiftY);

    let full = frontier.x > first ? frontier.x : undefined;
    let best: Place | undefined;
    let untouched = true;
    let bar = limit;
    this.columns.forEach(board.ends, board.notches, plate, full ?? first, last, (x) => {
      if (scoreAt(best ? x : (full ?? x), liked) >= bar) return false;
      board.freeAt(plate, x, this.gaps);
      if (this.gaps.count === 0) {
        full = x;
        if (untouched) frontier.x = x;
        return true;
      }
      untouched = false;
      const y = this.pick(taste);
      const worthwhile = (left: number): boolean => scoreAt(left, liked) < bar;
      const place =
        full === undefined ? { x, y } : this.leftmost(board, plate, full, { x, y }, taste, worthwhile);
      full = undefined;
      const score = scoreAt(place.x, place.y);
      if (score < bar) {
        best = { ...place, score };
        bar = score;
      }
      return true;
    });
    return best;
  }

  /** The liked end of the liked gap. */
  private pick(taste: Taste): number {
    const { ends, count } = this.gaps;
    if (taste.low < 0) return ends[2 * count - 1];
    if (!taste.snug) return ends[0];
    let at = 0;
    for (let gap = 1; gap < count; gap++) {
      if (ends[2 * gap + 1] - ends[2 * gap] < ends[2 * at + 1] - ends[2 * at]) at = gap;
    }
    return ends[2 * at];
  }

  /** Halves the stretch between a full and a free column until its free end is settled, or no longer worthwhile. */
  private leftmost(
    board: Board,
    plate: Oriented,
    full: number,
    free: { x: number; y: number },
    taste: Taste,
    worthwhile: (left: number) => boolean,
  ): { x: number; y: number } {
    let place = free;
    let left = full;
    while (place.x - left > SETTLED && worthwhile(left)) {
      const middle = (left + place.x) / 2;
      // Far from the origin numbers stand farther apart than what counts as settled.
      if (middle === left || middle === place.x) break;
      board.freeAt(plate, middle, this.gaps);
      if (this.gaps.count === 0) left = middle;
      else place = { x: middle, y: this.pick(taste) };
    }
    return place;
  }
}
