/** How many pieces of each kind are sawn from one bar. */
export type Pattern = readonly number[];

/**
 * All maximal patterns: piece counts that fit the bar, never more than wanted, to which no further piece can be added.
 * `sizes` and `capacity` are whole numbers; sizes descending. `undefined` when there are more than `limit`.
 */
export function maximalPatterns(
  sizes: readonly number[],
  demands: readonly number[],
  capacity: number,
  limit: number,
): Pattern[] | undefined {
  const patterns: Pattern[] = [];
  const counts = sizes.map(() => 0);
  let steps = 0;
  const fill = (kind: number, room: number): boolean => {
    steps++;
    if (patterns.length > limit || steps > 50 * limit) return false;
    if (kind === sizes.length) {
      const grows = sizes.some((size, i) => size <= room && (counts[i] ?? 0) < (demands[i] ?? 0));
      if (!grows) patterns.push([...counts]);
      return true;
    }
    const size = sizes[kind] ?? 0;
    for (let count = Math.min(demands[kind] ?? 0, Math.floor(room / size)); count >= 0; count--) {
      counts[kind] = count;
      if (!fill(kind + 1, room - count * size)) return false;
    }
    counts[kind] = 0;
    return true;
  };
  if (!fill(0, capacity) || patterns.length > limit) return undefined;
  return patterns.filter((pattern) => pattern.some((count) => count > 0));
}

/**
 * The pattern of greatest worth that fits a bar (bounded knapsack by depth-first search with the fractional bound).
 * Exact; meant for the tens of kinds a job has.
 */
export function worthiestPattern(
  sizes: readonly number[],
  demands: readonly number[],
  worths: readonly number[],
  capacity: number,
): { readonly pattern: Pattern; readonly worth: number } {
  const kinds = sizes
    .map((size, kind) => ({ kind, size, demand: demands[kind] ?? 0, worth: worths[kind] ?? 0 }))
    .filter((entry) => entry.worth > 0 && entry.demand > 0)
    .sort((a, b) => b.worth / b.size - a.worth / a.size || a.kind - b.kind);
  const counts = sizes.map(() => 0);
  let best: { pattern: Pattern; worth: number } = { pattern: [...counts], worth: 0 };
  const search = (at: number, room: number, worth: number): void => {
    if (worth > best.worth + 1e-12) best = { pattern: [...counts], worth };
    const entry = kinds[at];
    if (entry === undefined) return;
    if (worth + (room * entry.worth) / entry.size <= best.worth + 1e-12) return;
    for (let count = Math.min(entry.demand, Math.floor(room / entry.size)); count >= 0; count--) {
      counts[entry.kind] = count;
      search(at + 1, room - count * entry.size, worth + count * entry.worth);
    }
    counts[entry.kind] = 0;
  };
  search(0, capacity, 0);
  return best;
}

/** First-fit decreasing into bars of one length: patterns with how often each is used. A plan, not the best plan. */
export function firstFit(
  sizes: readonly number[],
  demands: readonly number[],
  capacity: number,
): { readonly pattern: Pattern; readonly times: number }[] {
  const rest = [...demands];
  const plan: { pattern: Pattern; times: number }[] = [];
  // First-fit decreasing closes a bar only when nothing fits any more, which is filling bar by bar, largest piece first.
  while (rest.some((count) => count > 0)) {
    let room = capacity;
    const pattern = sizes.map((size, kind) => {
      const count = Math.min(rest[kind] ?? 0, Math.floor(room / size));
      room -= count * size;
      return count;
    });
    if (pattern.every((count) => count === 0)) throw new RangeError("a piece is longer than the bar");
    const times = Math.min(
      ...pattern.flatMap((count, kind) => (count > 0 ? [Math.floor((rest[kind] ?? 0) / count)] : [])),
    );
    for (const [kind, count] of pattern.entries()) rest[kind] = (rest[kind] ?? 0) - count * times;
    plan.push({ pattern, times });
  }
  return plan;
}
