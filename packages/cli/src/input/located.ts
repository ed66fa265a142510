/** What a value was written in: a file, or an option of the command line. */
export interface Origin {
  /** As the person knows it: the path as typed, or the whole option. */
  readonly shown: string;
  /** Folder that relative paths inside start from. */
  readonly folder: string;
}

/** Where a value was written. Options have no line. */
export interface Place {
  readonly origin: Origin;
  readonly line?: number;
  readonly column?: number;
}

/** A value read from YAML that still knows where each part of it was written. */
export type Located = LocatedMap | LocatedList | LocatedScalar;

export interface LocatedMap {
  readonly kind: "map";
  readonly place: Place;
  readonly entries: ReadonlyMap<string, LocatedEntry>;
}

export interface LocatedEntry {
  /** Where the key stands. */
  readonly key: Place;
  readonly value: Located;
}

export interface LocatedList {
  readonly kind: "list";
  readonly place: Place;
  readonly items: readonly Located[];
}

export interface LocatedScalar {
  readonly kind: "scalar";
  readonly place: Place;
  /** `null` takes a value back to its default. */
  readonly value: string | number | boolean | null;
  /** As it was written, without quotes. */
  readonly text: string;
}

export type PathStep = string | number;

/** `frame.yaml:12:18`, or the option. */
export function placeText(place: Place): string {
  if (place.line === undefined) return place.origin.shown;
  return `${place.origin.shown}:${place.line}:${place.column ?? 1}`;
}

/** The plain value for the schema. Entries set to `null` are left out, so that their defaults hold. */
export function plainValue(node: Located): unknown {
  if (node.kind === "scalar") return node.value;
  if (node.kind === "list") return node.items.map(plainValue);
  const kept = [...node.entries].filter(([, entry]) => !isNull(entry.value));
  return Object.fromEntries(kept.map(([key, entry]) => [key, plainValue(entry.value)]));
}

/** The node at a path, or the deepest one on the way that exists. */
export function nodeAt(root: Located, path: readonly PathStep[]): { node: Located; reached: number } {
  let node = root;
  for (const [depth, step] of path.entries()) {
    const next = child(node, step);
    if (next === undefined) return { node, reached: depth };
    node = next;
  }
  return { node, reached: path.length };
}

/** Where the key of an entry stands; the place of its value when it has no key. */
export function keyPlace(root: Located, path: readonly PathStep[]): Place {
  const parent = nodeAt(root, path.slice(0, -1)).node;
  const last = path.at(-1);
  const entry = parent.kind === "map" && typeof last === "string" ? parent.entries.get(last) : undefined;
  return entry?.key ?? nodeAt(root, path).node.place;
}

/** Dotted path as a person reads it: entries of lists by their id where they have one. */
export function fieldText(root: Located, path: readonly PathStep[]): string {
  let text = "";
  let node: Located | undefined = root;
  for (const step of path) {
    const next: Located | undefined = node === undefined ? undefined : child(node, step);
    if (typeof step === "number") {
      const id = next === undefined ? undefined : idOf(next);
      text += id === undefined ? `[${step}]` : `.${id}`;
    } else {
      text += text === "" ? step : `.${step}`;
    }
    node = next;
  }
  return text;
}

/** The `id` of a list entry, when it has a usable one. */
export function idOf(node: Located): string | undefined {
  if (node.kind !== "map") return undefined;
  const id = node.entries.get("id")?.value;
  if (id === undefined || id.kind !== "scalar" || id.value === null || id.text === "") return undefined;
  return id.text;
}

function child(node: Located, step: PathStep): Located | undefined {
  if (node.kind === "map") return node.entries.get(String(step))?.value;
  if (node.kind === "list" && typeof step === "number") return node.items[step];
  return undefined;
}

function isNull(node: Located): boolean {
  return node.kind === "scalar" && node.value === null;
}
