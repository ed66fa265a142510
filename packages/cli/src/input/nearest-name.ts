/**
 * Fewest insertions, deletions, replacements and swaps of neighbours that turn one name into the other
 * (optimal string alignment; Damerau 1964, Levenshtein 1966). Letters compare without case.
 */
export function editDistance(one: string, other: string): number {
  const a = one.toLowerCase();
  const b = other.toLowerCase();
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1];
      let least = Math.min(
        (last[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + (same ? 0 : 1),
      );
      const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (swapped) least = Math.min(least, (beforeLast[column - 2] ?? 0) + 1);
      current.push(least);
    }
    beforeLast = last;
    last = current;
  }
  return last[b.length] ?? 0;
}

/** Longest name compared; what is longer is no slip of the pen. */
const longestName = 80;

/**
 * The known name a person most likely meant, or nothing when none is close: at most a third of the letters
 * may differ, or the known name must begin with what was written.
 */
export function nearestName(written: string, known: readonly string[]): string | undefined {
  if (written.length > longestName) return undefined;
  let best: { name: string; distance: number } | undefined;
  for (const name of known) {
    const distance = editDistance(written, name);
    const allowed = Math.max(1, Math.floor(Math.max(written.length, name.length) / 3));
    const begins = written.length >= 3 && name.toLowerCase().startsWith(written.toLowerCase());
    if (distance > allowed && !begins) continue;
    if (best === undefined || distance < best.distance) best = { name, distance };
  }
  return best?.name;
}

/** `; did you mean "clearance"?`, or an empty text. */
export function didYouMean(written: string, known: readonly string[]): string {
  const name = nearestName(written, known);
  return name === undefined ? "" : `; did you mean "${name}"?`;
}
