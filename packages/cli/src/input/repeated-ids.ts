import type { Problem } from "./input-error.js";
import { idOf, type Located, type Place, placeText } from "./located.js";

/** Ids that stand twice in one list, anywhere in the value. */
export function repeatedIds(root: Located): Problem[] {
  if (root.kind === "scalar") return [];
  if (root.kind === "map") return [...root.entries.values()].flatMap((entry) => repeatedIds(entry.value));
  const problems: Problem[] = [];
  const seen = new Map<string, Place>();
  for (const item of root.items) {
    const id = idOf(item);
    if (id === undefined) continue;
    const first = seen.get(id);
    if (first === undefined) seen.set(id, item.place);
    else {
      const message = `id "${id}" is used twice, first at ${placeText(first)}; every entry needs its own`;
      problems.push({ where: placeText(item.place), message });
    }
  }
  return [...problems, ...root.items.flatMap(repeatedIds)];
}
