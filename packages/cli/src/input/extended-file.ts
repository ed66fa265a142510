import { resolve } from "node:path";
import { inputError } from "./input-error.js";
import {
  idOf,
  type Located,
  type LocatedList,
  type LocatedMap,
  type LocatedScalar,
  placeText,
} from "./located.js";
import { readReferencedFile, readYamlFile } from "./yaml-file.js";

/** Files one may extend through; a longer chain cannot be followed by a person either. */
const longestChain = 8;

/** Values of which half an old and half a new one make no sense: given anew, they are replaced whole. */
const replacedWhole: readonly string[] = ["pattern", "outline", "import"];

/** A frame file or stock list with everything it extends merged in. */
export interface Extended {
  readonly root: LocatedMap;
  /** Every file read, absolute, the given one first. */
  readonly files: readonly [string, ...string[]];
}

/**
 * Reads a file and the file it `extends`, and so on, and lays each over the one it extends.
 *
 * Maps are merged key by key, lists whose entries have names, such as ids, by them; every other value is replaced. `null` takes a value
 * back to its default.
 *
 * @throws InputError for unreadable files, a circle, or a chain longer than eight files
 */
export async function readExtendedFile(path: string, cwd: string): Promise<Extended> {
  return extended(await readYamlFile(path, cwd), resolve(cwd, path), cwd, idOf);
}

/** What an entry of a list is known by; undefined where nothing names it. */
export type NameOf = (entry: Located) => string | undefined;

/** The same of a file that another names in the given field, with entries of lists known by `nameOf`. Throws InputError. */
export async function readExtendedReference(
  reference: LocatedScalar,
  field: string,
  cwd: string,
  nameOf: NameOf,
): Promise<Extended> {
  const { root, absolute } = await readReferencedFile(reference, field, cwd);
  return extended(root, absolute, cwd, nameOf);
}

async function extended(root: Located, absolute: string, cwd: string, nameOf: NameOf): Promise<Extended> {
  const first = asMap(root);
  const layers = [first];
  const files: [string, ...string[]] = [absolute];
  let reference = extendsOf(first);
  while (reference !== undefined) {
    if (files.length >= longestChain) {
      throw inputError(
        placeText(reference.place),
        `a chain of more than ${longestChain} files; extend less deeply`,
        "extends",
      );
    }
    const base = await readReferencedFile(reference, "extends", cwd);
    if (files.includes(base.absolute)) {
      throw inputError(placeText(reference.place), `${reference.text} extends this file in turn`, "extends");
    }
    const layer = asMap(base.root);
    layers.push(layer);
    files.push(base.absolute);
    reference = extendsOf(layer);
  }
  return { root: layers.reduceRight((below, above) => mergeMaps(below, above, nameOf)), files };
}

function asMap(root: Located): LocatedMap {
  if (root.kind === "map") return root;
  throw inputError(
    placeText(root.place),
    "the file must be a map of keys (key: value), beginning with keelcut: 1",
  );
}

function extendsOf(layer: LocatedMap): LocatedScalar | undefined {
  const node = layer.entries.get("extends")?.value;
  if (node === undefined || (node.kind === "scalar" && node.value === null)) return undefined;
  if (node.kind === "scalar" && typeof node.value === "string" && node.value !== "") return node;
  throw inputError(placeText(node.place), "give the path of one file of the same kind", "extends");
}

function mergeMaps(below: LocatedMap, above: LocatedMap, nameOf: NameOf): LocatedMap {
  const entries = new Map(below.entries);
  for (const [key, entry] of above.entries) {
    const under = entries.get(key)?.value;
    const whole = under === undefined || replacedWhole.includes(key);
    entries.set(key, { key: entry.key, value: whole ? entry.value : merge(under, entry.value, nameOf) });
  }
  return { kind: "map", place: above.place, entries };
}

function merge(below: Located, above: Located, nameOf: NameOf): Located {
  if (below.kind === "map" && above.kind === "map") return mergeMaps(below, above, nameOf);
  const lists = below.kind === "list" && above.kind === "list";
  return lists && haveNames(below, nameOf) && haveNames(above, nameOf)
    ? mergeByName(below, above, nameOf)
    : above;
}

function mergeByName(below: LocatedList, above: LocatedList, nameOf: NameOf): LocatedList {
  const items = [...below.items];
  for (const item of above.items) {
    // Among those below only: two of one name in one list stay two, so that it can be said.
    const index = below.items.findIndex((other) => nameOf(other) === nameOf(item));
    const under = items[index];
    if (under === undefined) items.push(item);
    else items[index] = merge(under, item, nameOf);
  }
  return { kind: "list", place: above.place, items };
}

function haveNames(list: LocatedList, nameOf: NameOf): boolean {
  return list.items.length > 0 && list.items.every((item) => nameOf(item) !== undefined);
}
