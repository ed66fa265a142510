/** Thrown when a built-in table is asked for a name it does not hold. */
export class UnknownEntry extends Error {
  override readonly name = "UnknownEntry";
  /** Title of the table that was asked. */
  readonly table: string;
  readonly asked: string;
  /** Known names, the most likely meant first. */
  readonly nearest: readonly string[];

  constructor(table: string, asked: string, nearest: readonly string[]) {
    super(`${table} has no entry "${asked}"; nearest: ${nearest.join(", ") || "none"}`);
    this.table = table;
    this.asked = asked;
    this.nearest = nearest;
  }
}

/**
 * The `count` known names closest to `asked`: by value when both are a number behind the same letters (M11 -> M10,
 * M12), else by letters to change (Levenshtein distance), upper and lower case alike.
 */
export function nearestNames(asked: string, known: readonly string[], count = 3): readonly string[] {
  return known
    .map((name, order) => ({ name, order, distance: distanceOf(asked, name) }))
    .sort((a, b) => a.distance - b.distance || a.order - b.order)
    .slice(0, count)
    .map(({ name }) => name);
}

function distanceOf(asked: string, name: string): number {
  const a = lettersAndNumber(asked);
  const b = lettersAndNumber(name);
  // A number is compared on a scale below one changed letter, so that M11 is nearer to M12 than to M1.6.
  if (a && b && a.letters === b.letters)
    return Math.abs(a.value - b.value) / (1 + Math.abs(a.value - b.value));
  return changedLetters(asked.toLowerCase(), name.toLowerCase());
}

function lettersAndNumber(text: string): { letters: string; value: number } | undefined {
  const match = /^([a-z ]*)(\d+(?:\.\d+)?)$/i.exec(text.trim());
  return match ? { letters: (match[1] ?? "").trim().toLowerCase(), value: Number(match[2]) } : undefined;
}

function changedLetters(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = (row[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, (row[j] as number) + 1, (next[j - 1] as number) + 1));
    }
    row = next;
  }
  return row[b.length] as number;
}
