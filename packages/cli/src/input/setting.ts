import { inputError } from "./input-error.js";
import { idOf, type Located, type LocatedMap, type Origin, type Place } from "./located.js";
import { didYouMean } from "./nearest-name.js";
import { parseYamlValue } from "./yaml-text.js";

/**
 * Applies `--set path=value` options in order.
 *
 * A path is keys joined by dots; entries of lists go by their id, or by position from 0 where they have none; `*` means
 * every entry. Values are YAML: `110`, `true`, `[40, 0]`, `{circle: 25}`, `null` for the default.
 *
 * @throws InputError naming the option
 */
export function applySettings(root: LocatedMap, settings: readonly string[], cwd: string): LocatedMap {
  let changed: Located = root;
  for (const setting of settings) {
    const origin: Origin = { shown: `--set ${setting}`, folder: cwd };
    changed = applied(changed, setting, origin);
  }
  return changed.kind === "map" ? changed : root;
}

function applied(root: Located, setting: string, origin: Origin): Located {
  const equals = setting.indexOf("=");
  if (equals < 0) throw inputError(origin.shown, "write path=value, for example ducts.port.length=120");
  const path = setting.slice(0, equals).trim();
  const text = setting.slice(equals + 1).trim();
  const steps = path.split(".");
  if (steps.some((step) => step === "" || step === "__proto__")) {
    throw inputError(origin.shown, "the path before = has an empty part; write for example deck.length=420");
  }
  if (steps[0] === "extends") throw inputError(origin.shown, "extends belongs in a file, not in --set");
  if (text === "") {
    throw inputError(origin.shown, "there is no value after =; write null to take the default");
  }
  return withValue(root, steps, parseYamlValue(text, origin), { origin }, []);
}

function withValue(
  node: Located | undefined,
  steps: readonly string[],
  value: Located,
  place: Place,
  walked: readonly string[],
): Located {
  const [step, ...rest] = steps;
  if (step === undefined) return value;
  const inner = (next: Located | undefined, name: string): Located =>
    withValue(next, rest, value, place, [...walked, name]);
  if (node === undefined || (node.kind === "scalar" && node.value === null)) {
    if (step === "*") throw inputError(place.origin.shown, `${walked.join(".")} has no entries for *`);
    return { kind: "map", place, entries: new Map([[step, { key: place, value: inner(undefined, step) }]]) };
  }
  if (node.kind === "scalar") {
    throw inputError(
      place.origin.shown,
      `${walked.join(".")} is the single value ${node.text} and has no "${step}" inside`,
    );
  }
  if (node.kind === "list") {
    const chosen = chosenItems(node.items, step, walked, place);
    const items = node.items.map((item, index) => (chosen.includes(index) ? inner(item, step) : item));
    return { ...node, items };
  }
  const entries = new Map(node.entries);
  const names = step === "*" ? [...node.entries.keys()] : [step];
  if (names.length === 0) throw inputError(place.origin.shown, `${walked.join(".")} has no entries for *`);
  for (const name of names) {
    const entry = node.entries.get(name);
    entries.set(name, { key: entry?.key ?? place, value: inner(entry?.value, name) });
  }
  return { ...node, entries };
}

function chosenItems(
  items: readonly Located[],
  step: string,
  walked: readonly string[],
  place: Place,
): number[] {
  const all = items.map((_, index) => index);
  if (step === "*" && all.length > 0) return all;
  const ids = items.map(idOf);
  const byId = all.filter((index) => ids[index] === step);
  if (byId.length > 0) return byId;
  if (/^\d+$/.test(step) && ids[Number(step)] === undefined && Number(step) < items.length)
    return [Number(step)];
  const known = ids.filter((id) => id !== undefined);
  const right =
    known.length > 0
      ? `${didYouMean(step, known) || `; known: ${known.join(", ")}`}`
      : `; entries count from 0 to ${items.length - 1}`;
  throw inputError(place.origin.shown, `${walked.join(".") || "the list"} has no entry "${step}"${right}`);
}
