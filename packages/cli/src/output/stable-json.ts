/** Decimals kept in JSON: far below what any machine or measurement resolves, far above binary dust. */
const decimals = 1e9;

/** What fits in so many characters stands on one line: a vertex, a placement, a short list. */
const lineWidth = 110;

/**
 * JSON of plain data with the same bytes for the same data: keys in the order the program builds them, numbers rounded
 * to nine decimals, no negative zero, `undefined` left out.
 *
 * @throws RangeError for NaN and infinity, which JSON would silently turn into null
 */
export function stableJson(value: unknown): string {
  return printed(value, "", "");
}

function printed(value: unknown, indent: string, name: string): string {
  if (typeof value === "number") return numberText(value, name);
  if (typeof value !== "object" || value === null) return JSON.stringify(value ?? null);
  const inner = `${indent}  `;
  if (Array.isArray(value)) {
    const items = value.map((item: unknown) => printed(item, inner, name));
    return joined("[", items, "]", indent);
  }
  const entries = Object.entries(value)
    .filter(([, entry]) => entry !== undefined)
    .map(([key, entry]) => `${JSON.stringify(key)}: ${printed(entry, inner, key)}`);
  return joined("{", entries, "}", indent);
}

function joined(open: string, parts: readonly string[], close: string, indent: string): string {
  const length = parts.reduce((sum, part) => sum + part.length + 2, indent.length + 2);
  const short = length <= lineWidth && !parts.some((part) => part.includes("\n"));
  if (parts.length === 0 || short) return open + parts.join(", ") + close;
  return `${open}\n${parts.map((part) => `${indent}  ${part}`).join(",\n")}\n${indent}${close}`;
}

function numberText(value: number, name: string): string {
  if (!Number.isFinite(value)) throw new RangeError(`${name} is ${value}, which a file cannot hold`);
  const rounded = Math.abs(value) < 1e6 ? Math.round(value * decimals) / decimals : value;
  return JSON.stringify(rounded === 0 ? 0 : rounded);
}
