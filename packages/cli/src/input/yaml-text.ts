import {
  type Alias,
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  type Scalar,
  visit,
  type YAMLError,
} from "yaml";
import { InputError, inputError, type Problem } from "./input-error.js";
import {
  fieldText,
  type Located,
  type LocatedEntry,
  type Origin,
  type PathStep,
  type Place,
  placeText,
} from "./located.js";
import { repeatedIds } from "./repeated-ids.js";

/** Values a file may unfold to through aliases: far above any real file, far below what fills the memory. */
const mostValues = 100_000;
const deepest = 60;
const emptyValue = "there is no value here; give one, or write null to take the default";
/** One slip makes several syntax errors; the first ones are the true ones. */
const syntaxErrorsShown = 3;

/**
 * Parses YAML 1.2 and keeps line and column of every value.
 *
 * Refused with their place: tabs for indentation, keys given twice, ids given twice in one list, NaN and
 * infinity, tags, merge keys, several documents, empty values and whatever is not YAML.
 *
 * @throws InputError with all problems
 */
export function parseYaml(text: string, origin: Origin): Located {
  const lines = new LineCounter();
  const document = parseSafely(text, lines, origin);
  const placeAt = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { origin, line, column: col };
  };
  refuseSyntaxErrors([...document.errors, ...document.warnings], placeAt);
  if (document.directives?.yaml.explicit === true && document.directives.yaml.version !== "1.2") {
    throw inputError(origin.shown, "is marked as YAML 1.1; take the %YAML line out (YAML 1.2 is read)");
  }
  if (document.contents === null || isEmptyScalar(document.contents)) {
    throw inputError(origin.shown, "is empty");
  }
  const conversion = new Conversion(document, placeAt);
  const root = conversion.convert(document.contents, []);
  const problems = [...conversion.faults.map((fault) => problemOf(fault, root)), ...repeatedIds(root)];
  if (problems.length > 0) throw new InputError(problems);
  return root;
}

/** Parses the value of an option: a YAML scalar, or a flow list or map. */
export function parseYamlValue(text: string, origin: Origin): Located {
  try {
    return withoutLines(parseYaml(text, origin), { origin });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError(error.problems.map((problem) => ({ ...problem, where: origin.shown })));
  }
}

function withoutLines(node: Located, place: Place): Located {
  if (node.kind === "scalar") return { ...node, place };
  if (node.kind === "list") {
    return { kind: "list", place, items: node.items.map((item) => withoutLines(item, place)) };
  }
  const entries = [...node.entries].map(([key, entry]): [string, LocatedEntry] => [
    key,
    { key: place, value: withoutLines(entry.value, place) },
  ]);
  return { kind: "map", place, entries: new Map(entries) };
}

function parseSafely(text: string, lines: LineCounter, origin: Origin): Document.Parsed {
  const binary = text.indexOf("\0");
  if (binary >= 0) throw inputError(origin.shown, "is not a text file (it holds a zero byte)");
  try {
    return parseDocument(text, {
      lineCounter: lines,
      version: "1.2",
      schema: "core",
      merge: false,
      prettyErrors: false,
      // Looked for when keys are collected: the parser compares every key with every other.
      uniqueKeys: false,
    });
  } catch (error) {
    if (error instanceof RangeError) throw inputError(origin.shown, "is nested too deeply");
    throw error;
  }
}

function refuseSyntaxErrors(errors: readonly YAMLError[], placeAt: (offset: number) => Place): void {
  if (errors.length === 0) return;
  const problems: Problem[] = [];
  for (const error of errors) {
    const where = placeText(placeAt(error.pos[0]));
    const message = syntaxMessage(error);
    if (!problems.some((problem) => problem.where === where)) problems.push({ where, message });
  }
  throw new InputError(problems.slice(0, syntaxErrorsShown));
}

function syntaxMessage(error: YAMLError): string {
  if (error.message.includes("call stack")) return "is nested too deeply";
  if (error.code === "TAB_AS_INDENT") return "a tab is used for indentation; use spaces";
  if (error.code === "MULTIPLE_DOCS")
    return "a second document begins here (---); one file holds one document";
  if (error.code === "TAG_RESOLVE_FAILED") return "tags (!...) are not used here; write the plain value";
  if (error.code === "BLOCK_AS_IMPLICIT_KEY") {
    return "two keys on one line; put the text in quotes, or the inner keys on their own lines";
  }
  return `this is not YAML: ${error.message.replace(/\s+/g, " ").trim()}`;
}

interface Fault {
  readonly place: Place;
  readonly path: readonly PathStep[];
  readonly message: string;
}

function problemOf(fault: Fault, root: Located): Problem {
  return { where: placeText(fault.place), field: fieldText(root, fault.path), message: fault.message };
}

class Conversion {
  readonly faults: Fault[] = [];
  private readonly placeAt: (offset: number) => Place;
  private values = 0;
  /** What each alias means: the latest node before it that has its anchor. */
  private readonly targets: ReadonlyMap<Alias, Node>;

  constructor(document: Document.Parsed, placeAt: (offset: number) => Place) {
    this.targets = aliasTargets(document);
    this.placeAt = placeAt;
  }

  convert(node: Node, path: readonly PathStep[]): Located {
    const place = this.placeOf(node);
    this.values += 1;
    if (this.values > mostValues) {
      throw inputError(placeText(place), "the file unfolds to more than 100 000 values; use fewer aliases");
    }
    if (path.length > deepest) throw inputError(placeText(place), "is nested too deeply");
    if (isAlias(node)) return this.convertAlias(node, place, path);
    if (isMap<Node, Node | null>(node)) {
      const entries = new Map<string, LocatedEntry>();
      for (const pair of node.items) this.addEntry(entries, pair, place, path);
      return { kind: "map", place, entries };
    }
    if (isSeq<Node>(node)) {
      const items = node.items.map((item, index) => this.convert(item, [...path, index]));
      return { kind: "list", place, items };
    }
    return this.convertScalar(node as Scalar, place, path);
  }

  private convertAlias(node: Alias, place: Place, path: readonly PathStep[]): Located {
    const target = this.targets.get(node);
    if (target !== undefined) return this.convert(target, path);
    this.report(place, path, `there is no anchor &${node.source} before this alias`);
    return { kind: "scalar", place, value: null, text: "" };
  }

  private addEntry(
    entries: Map<string, LocatedEntry>,
    pair: Pair<Node, Node | null>,
    mapPlace: Place,
    path: readonly PathStep[],
  ): void {
    const { key, value } = pair;
    if (!isScalar(key)) {
      this.report(mapPlace, path, "a key must be a plain word");
      return;
    }
    const place = this.placeOf(key);
    const name = key.source ?? String(key.value);
    const inner = [...path, name];
    const fault = keyFault(name, entries.has(name));
    if (fault !== undefined) this.report(place, path, fault);
    else if (value === null) this.report(place, inner, emptyValue);
    else entries.set(name, { key: place, value: this.convert(value, inner) });
  }

  private convertScalar(node: Scalar, place: Place, path: readonly PathStep[]): Located {
    const { value } = node;
    const text = node.source ?? String(value);
    const fault = scalarFault(node, text);
    if (fault !== undefined) this.report(place, path, fault);
    else if (typeof value === "string" || typeof value === "number" || typeof value === "boolean") {
      return { kind: "scalar", place, value, text };
    }
    return { kind: "scalar", place, value: null, text };
  }

  private placeOf(node: Node): Place {
    return this.placeAt(node.range?.[0] ?? 0);
  }

  private report(place: Place, path: readonly PathStep[], message: string): void {
    this.faults.push({ place, path, message });
  }
}

/** One walk for all aliases; asking the document for each walks it each time. */
function aliasTargets(document: Document.Parsed): Map<Alias, Node> {
  const anchors = new Map<string, Node>();
  const targets = new Map<Alias, Node>();
  visit(document, {
    Alias: (_, alias) => {
      const target = anchors.get(alias.source);
      if (target !== undefined) targets.set(alias, target);
    },
    Value: (_, node) => {
      if (node.anchor) anchors.set(node.anchor, node);
    },
  });
  return targets;
}

function scalarFault(node: Scalar, text: string): string | undefined {
  if (node.tag !== undefined) return "tags (!!...) are not used here; write the plain value";
  if (isEmptyScalar(node)) return emptyValue;
  if (typeof node.value === "number" && !Number.isFinite(node.value)) {
    return `${text} is not a number that can be used; give a finite one`;
  }
  return undefined;
}

function keyFault(name: string, twice: boolean): string | undefined {
  if (name === "<<") return "merge keys (<<) are not used here; use extends, or repeat the values";
  if (name === "" || name === "__proto__") return "this cannot be a key";
  return twice ? `"${name}" is given twice; keep one of the two` : undefined;
}

function isEmptyScalar(node: Node): boolean {
  return isScalar(node) && node.value === null && (node.source ?? "") === "";
}
