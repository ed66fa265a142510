import type { Extent } from "../nofit/polygon.js";
import { type Gaps, takeOut } from "./gaps.js";
import { STRIDE, type Trapezoids } from "./trapezoids.js";

/** Distance of the lines, mm, and the most lines a sheet has. */
const LINE_STEP = 4;
const MOST_LINES = 2000;
const OFFSETS = [2, 0, 3, 1];

/** What may be screened: a decomposed set whose pieces are found by x. */
export interface Screened {
  readonly pieces: Trapezoids;
  readonly box: Extent;
  /** Offsets of the pieces that meet each of equally wide stretches of the box. */
  readonly byStretch: readonly (readonly number[])[];
  /** x of the middle of the piece with the longest upright line. */
  readonly tallestAt: number;
}

/**
 * Upright lines across a sheet and what is taken on them, kept up to date as plates are laid. A plate at some x must
 * leave all of its cuts with these lines in what is free of them, which settles nearly every column of a full sheet at
 * a fraction of the cost of the exact slice. It only ever rules out what the slice would rule out too.
 */
export class Lines {
  private readonly first: number;
  private readonly step: number;
  /** Per line: taken intervals from low to high, merged, `[from, to]` pairs. */
  private readonly taken: number[][];
  private readonly touch: number;

  constructor(minX: number, maxX: number, touch: number) {
    this.step = Math.max(LINE_STEP, (maxX - minX) / MOST_LINES);
    this.first = minX + this.step / 2;
    this.taken = Array.from({ length: Math.max(1, Math.ceil((maxX - minX) / this.step)) }, () => []);
    this.touch = touch;
  }

  /** Marks a decomposed set as taken. */
  take(pieces: Trapezoids): void {
    for (let at = 0; at < pieces.length; at += STRIDE) {
      const left = pieces[at] + this.touch;
      const right = pieces[at + 1] - this.touch;
      const last = Math.min(this.taken.length - 1, this.indexBelow(right));
      for (let line = Math.max(0, this.indexBelow(left) + 1); line <= last; line++) {
        const offset = this.first + line * this.step - pieces[at];
        const low = pieces[at + 2] + pieces[at + 3] * offset;
        const high = pieces[at + 4] + pieces[at + 5] * offset;
        if (high > low) addTo(this.taken[line] as number[], low, high);
      }
    }
  }

  /** Takes out of `gaps` every y at which a line sees the mover at the given x overlap what is taken. */
  screen(mover: Screened, x: number, gaps: Gaps): void {
    const first = Math.max(0, this.indexBelow(mover.box.minX + x) + 1);
    const last = Math.min(this.taken.length - 1, this.indexBelow(mover.box.maxX + x));
    const tallest = Math.round((mover.tallestAt + x - this.first) / this.step);
    if (tallest >= first && tallest <= last) this.screenLine(tallest, mover, x, gaps);
    // Far lines differ more than near ones: every fourth first.
    for (const offset of OFFSETS) {
      for (let line = first + offset; line <= last; line += OFFSETS.length) {
        if (gaps.count === 0) return;
        if (line !== tallest) this.screenLine(line, mover, x, gaps);
      }
    }
  }

  private screenLine(line: number, mover: Screened, x: number, gaps: Gaps): void {
    const taken = this.taken[line] as number[];
    if (taken.length === 0) return;
    const at = this.first + line * this.step - x;
    const { pieces, box, byStretch } = mover;
    const share = (at - box.minX) / (box.maxX - box.minX);
    const stretch = byStretch[Math.floor(share * byStretch.length)];
    if (stretch === undefined) return;
    for (const piece of stretch) {
      const left = pieces[piece];
      if (at <= left + this.touch || at >= pieces[piece + 1] - this.touch) continue;
      const low = pieces[piece + 2] + pieces[piece + 3] * (at - left) + this.touch;
      const high = pieces[piece + 4] + pieces[piece + 5] * (at - left) - this.touch;
      if (high <= low) continue;
      const from = gaps.ends[0] + low;
      const to = gaps.ends[2 * gaps.count - 1] + high;
      for (let k = 0; k < taken.length && taken[k] < to; k += 2) {
        if (taken[k + 1] > from) takeOut(gaps, taken[k] - high, taken[k + 1] - low);
      }
      if (gaps.count === 0) return;
    }
  }

  private indexBelow(x: number): number {
    return Math.floor((x - this.first) / this.step);
  }
}

/** Unites an interval with sorted disjoint ones. */
function addTo(taken: number[], low: number, high: number): void {
  let first = 0;
  while (first < taken.length && taken[first + 1] < low) first += 2;
  let last = first;
  let from = low;
  let to = high;
  while (last < taken.length && taken[last] <= high) {
    from = Math.min(from, taken[last]);
    to = Math.max(to, taken[last + 1]);
    last += 2;
  }
  taken.splice(first, last - first, from, to);
}

/** For each of as many equal stretches of the box as there are pieces: the pieces that meet it. */
export function piecesByStretch(pieces: Trapezoids, box: Extent): number[][] {
  const count = Math.max(1, pieces.length / STRIDE);
  const width = (box.maxX - box.minX) / count;
  const stretches: number[][] = Array.from({ length: count }, () => []);
  for (let at = 0; at < pieces.length; at += STRIDE) {
    const from = Math.max(0, Math.floor((pieces[at] - box.minX) / width - 1e-9));
    const to = Math.min(count - 1, Math.floor((pieces[at + 1] - box.minX) / width + 1e-9));
    for (let stretch = from; stretch <= to; stretch++) stretches[stretch].push(at);
  }
  return stretches;
}
