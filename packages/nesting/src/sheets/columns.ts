import type { Oriented } from "./oriented.js";

/** Columns are at most this far apart, mm, or a tenth of the plate's length if that is more. */
const COLUMN_STEP = 4;
/** Columns are gathered for stretches of this many steps. */
const STRETCH = 24;
/** Columns closer than this are the same column, rounded differently, mm. */
const SAME = 1e-9;

/** x at which a newcomer may touch what lies on a sheet, in rising order, none twice. */
export class Landmarks {
  readonly sorted: number[] = [];

  add(x: number): void {
    const at = this.firstFrom(x - SAME);
    const next = this.sorted[at];
    if (next === undefined || next > x + SAME) this.sorted.splice(at, 0, x);
  }

  /** Index of the first landmark at or beyond x. */
  firstFrom(x: number): number {
    let low = 0;
    let high = this.sorted.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.sorted[middle] < x) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}

/**
 * The columns to look at for a plate, from left to right: where one of its landmarks meets an end of what lies there,
 * where one of its ends meets a notch or an opening of that, and a grid in between.
 */
export class Columns {
  private found = new Float64Array(256);
  private count = 0;

  /** Calls `look` for every column from `first` to `last` until it says to stop. */
  forEach(
    ends: Landmarks,
    notches: Landmarks,
    plate: Oriented,
    first: number,
    last: number,
    look: (x: number) => boolean,
  ): void {
    if (last < first) return;
    const { minX, maxX } = plate.body.box;
    const step = Math.max(COLUMN_STEP, (maxX - minX) / 10);
    let previous = Number.NEGATIVE_INFINITY;
    for (let from = first; ; from += step * STRETCH) {
      const to = Math.min(last, from + step * STRETCH);
      this.count = 0;
      for (let x = from; x < to; x += step) this.push(x);
      for (const landmark of plate.landmarks) this.meet(ends, landmark, from, to);
      this.meet(notches, minX, from, to);
      this.meet(notches, maxX, from, to);
      this.push(to);
      const sorted = this.found.subarray(0, this.count).sort();
      for (const x of sorted) {
        if (x - previous <= SAME && x !== last) continue;
        if (!look(x)) return;
        previous = x;
      }
      if (to === last) return;
    }
  }

  private meet(marks: Landmarks, landmark: number, from: number, to: number): void {
    const { sorted } = marks;
    for (let at = marks.firstFrom(from + landmark); at < sorted.length; at++) {
      const x = sorted[at] - landmark;
      if (x > to) return;
      this.push(Math.max(x, from));
    }
  }

  private push(x: number): void {
    if (this.count === this.found.length) {
      const larger = new Float64Array(2 * this.count);
      larger.set(this.found);
      this.found = larger;
    }
    this.found[this.count++] = x;
  }
}
