export interface Interval {
  readonly min: number;
  readonly max: number;
}

/**
 * A lookup of the indexes of all intervals that may hold a value: those that reach into its bin. As many bins as intervals
 * and none wider than they must be, so a lookup costs about as much as it finds.
 */
export function intervalIndex(intervals: readonly Interval[]): (value: number) => readonly number[] {
  const least = intervals.reduce((low, { min }) => Math.min(low, min), Number.POSITIVE_INFINITY);
  const most = intervals.reduce((high, { max }) => Math.max(high, max), Number.NEGATIVE_INFINITY);
  const count = Math.max(1, intervals.length);
  const width = Math.max((most - least) / count, Number.MIN_VALUE);
  const binOf = (value: number): number =>
    Math.max(0, Math.min(count - 1, Math.floor((value - least) / width)));
  const bins: number[][] = Array.from({ length: count }, () => []);
  intervals.forEach(({ min, max }, index) => {
    for (let bin = binOf(min); bin <= binOf(max); bin++) bins[bin]?.push(index);
  });
  return (value) => bins[binOf(value)] ?? [];
}
