/**
 * A function on 0..1 that keeps sums: numbers that add up to at most 1 have values that add up to at most 1. Applied to
 * the sides of rectangles it gives other rectangles that can be packed wherever the first can.
 */
export type DualFeasible = (x: number) => number;

/**
 * The identity and three families (Fekete and Schepers, Mathematical Programming 91, 2001, section 3, from memory; the
 * property itself is tested), for thresholds at the given sizes and their complements.
 */
export function dualFeasibleFunctions(sizes: readonly number[]): DualFeasible[] {
  const thresholds = [...new Set(sizes.flatMap((x) => [x, 1 - x]).filter((x) => x > 1e-6 && x <= 0.5))];
  const few = spread(thresholds.sort((a, b) => a - b));
  return [(x) => x, rounding(1), rounding(2), rounding(3), ...few.map(large), ...few.map(counting)];
}

const MOST_THRESHOLDS = 12;

function spread(values: readonly number[]): number[] {
  if (values.length <= MOST_THRESHOLDS) return [...values];
  const step = (values.length - 1) / (MOST_THRESHOLDS - 1);
  return Array.from({ length: MOST_THRESHOLDS }, (_, k) => values[Math.round(k * step)] as number);
}

/** Rounds to whole k-ths, except what is a whole (k + 1)-th. */
function rounding(k: number): DualFeasible {
  return (x) => (Number.isInteger((k + 1) * x) ? x : Math.floor((k + 1) * x) / k);
}

/** Small numbers count nothing, and what leaves room only for small ones counts whole. */
function large(threshold: number): DualFeasible {
  return (x) => (x > 1 - threshold ? 1 : x < threshold ? 0 : x);
}

/** Counts how many of at least the threshold go into 1, and into what a large one leaves. */
function counting(threshold: number): DualFeasible {
  const most = Math.floor(1 / threshold);
  return (x) => {
    if (x < threshold) return 0;
    return x > 0.5 ? 1 - Math.floor((1 - x) / threshold) / most : 1 / most;
  };
}
