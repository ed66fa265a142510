/** Disjoint closed intervals in rising order, kept in place: `[from, to]` pairs in the first `2 * count` numbers. */
export interface Gaps {
  ends: Float64Array;
  count: number;
}

export function newGaps(): Gaps {
  return { ends: new Float64Array(64), count: 0 };
}

/** One interval from `from` to `to`. */
export function resetGaps(gaps: Gaps, from: number, to: number): void {
  gaps.ends[0] = from;
  gaps.ends[1] = to;
  gaps.count = 1;
}

/** Takes the open interval (low, high) out; single points may remain. */
export function takeOut(gaps: Gaps, low: number, high: number): void {
  if (low >= high) return;
  const { ends, count } = gaps;
  let first = 0;
  while (first < count && ends[2 * first + 1] <= low) first++;
  if (first === count || ends[2 * first] >= high) return;
  let last = first;
  while (last + 1 < count && ends[2 * last + 2] < high) last++;
  const from = ends[2 * first];
  const to = ends[2 * last + 1];
  const left = from <= low;
  const right = high <= to;
  const kept = (left ? 1 : 0) + (right ? 1 : 0);
  const shift = kept - (last - first + 1);
  if (shift !== 0) {
    if (2 * (count + shift) > ends.length) {
      gaps.ends = new Float64Array(2 * ends.length);
      gaps.ends.set(ends);
    }
    gaps.ends.copyWithin(2 * (last + 1 + shift), 2 * (last + 1), 2 * count);
  }
  let at = 2 * first;
  if (left) {
    gaps.ends[at++] = from;
    gaps.ends[at++] = low;
  }
  if (right) {
    gaps.ends[at++] = high;
    gaps.ends[at] = to;
  }
  gaps.count = count + shift;
}
