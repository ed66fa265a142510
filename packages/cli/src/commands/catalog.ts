import { type CatalogTable, catalog as tables } from "@keelcut/geometry";
import { exitCodes } from "../exit-codes.js";
import { inputError } from "../input/input-error.js";
import { didYouMean } from "../input/nearest-name.js";
import { painted } from "../screen/colour.js";
import { counted } from "../screen/number-text.js";
import { type Screen, textWidth } from "../screen/screen.js";
import { table } from "../screen/table.js";
import { wrapped } from "../screen/wrapped.js";
import type { JsonOption } from "./options.js";

export interface CatalogOptions extends JsonOption {
  readonly search?: string;
}

/** Lists the built-in tables with their sources, prints the one asked for, or what a search finds in them. */
export function catalog(id: string | undefined, options: CatalogOptions, screen: Screen): number {
  const all = tables();
  const chosen = id === undefined ? all : [tableOf(id, all)];
  if (options.search !== undefined) return searched(chosen, options.search, options, screen);
  const [only] = chosen;
  if (id !== undefined && only !== undefined) {
    screen.print(
      options.json === true
        ? JSON.stringify({ format: "keelcut-catalog-table", version: 1, ...only }, undefined, 2)
        : printed(only, screen),
    );
  } else {
    screen.print(options.json === true ? jsonList(all) : list(all, screen));
  }
  return exitCodes.fine;
}

function tableOf(id: string, all: readonly CatalogTable[]): CatalogTable {
  const chosen = all.find((each) => each.id === id);
  if (chosen !== undefined) return chosen;
  const guess = didYouMean(
    id,
    all.map((each) => each.id),
  );
  throw inputError("catalog", `there is no table "${id}"${guess || "; keelcut catalog lists them"}`);
}

/** Exit code 1 when nothing is found, as a search in files does. */
function searched(
  all: readonly CatalogTable[],
  text: string,
  options: CatalogOptions,
  screen: Screen,
): number {
  const words = text.toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) throw inputError("--search", "is empty; give words to look for, for example M6");
  const found = all.flatMap((each) => matching(each, words) ?? []);
  if (options.json === true) {
    const data = { format: "keelcut-catalog-search", version: 1, search: text, tables: found };
    screen.print(JSON.stringify(data, undefined, 2));
  } else if (found.length === 0) {
    screen.print(`Nothing in ${counted(all.length, "table")} has all of: ${words.join(", ")}`);
  } else {
    screen.print(found.map((each) => printed(each, screen)).join("\n\n"));
  }
  return found.length > 0 ? exitCodes.fine : exitCodes.findings;
}

/**
 * The table with the rows in which every word is found, in the row itself or in what is said about the table; a word in
 * a cell must begin it or a part of it, so that M1 is not found in AM12.
 */
function matching(each: CatalogTable, words: readonly string[]): CatalogTable | undefined {
  const about = [each.id, each.title, each.source, each.note ?? "", each.columns.join(" ")]
    .join(" ")
    .toLowerCase();
  const left = words.filter((word) => !about.includes(word));
  if (left.length === 0) return each;
  const rows = each.rows.filter((row) => left.every((word) => row.some((cell) => hasWord(cell, word))));
  return rows.length === 0 ? undefined : { ...each, rows };
}

function hasWord(cell: string | number | null, word: string): boolean {
  if (cell === null) return false;
  const text = String(cell).toLowerCase();
  return (
    text === word ||
    text.split(/[\s,;:()x/]+/).some((part) => part.startsWith(word)) ||
    (word.includes(" ") && text.includes(word))
  );
}

function jsonList(all: readonly CatalogTable[]): string {
  const tables = all.map(({ id, title, source, basis, unit, rows }) => ({
    id,
    title,
    source,
    basis,
    unit,
    rows: rows.length,
  }));
  return JSON.stringify({ format: "keelcut-catalog", version: 1, tables }, undefined, 2);
}

function list(all: readonly CatalogTable[], screen: Screen): string {
  const rows = all.map((each) => [each.id, each.title, String(each.rows.length), each.basis]);
  const columns = [
    { title: "table" },
    { title: "what it holds" },
    { title: "rows", right: true },
    { title: "basis" },
  ];
  const [head = "", ...lines] = table(columns, rows).split("\n");
  const width = textWidth(screen);
  const withSources = lines.flatMap((line, index) => [
    line,
    painted(wrapped(`    ${all[index]?.source ?? ""}`, width, "    "), "dim", screen.colour),
  ]);
  const foot = `${counted(all.length, "table")}, each with its source below it. keelcut catalog <table> prints one, --search <words> finds rows.`;
  return [head, ...withSources, "", painted(foot, "dim", screen.colour)].join("\n");
}

function printed(chosen: CatalogTable, screen: Screen): string {
  const columns = chosen.columns.map((title, index) => ({
    title,
    right: chosen.rows.some((row) => typeof row[index] === "number"),
  }));
  const rows = chosen.rows.map((row) => row.map((cell) => (cell === null ? "-" : String(cell))));
  const width = textWidth(screen);
  return [
    painted(`${chosen.title} (${chosen.unit})`, "bold", screen.colour),
    wrapped(`Source: ${chosen.source}`, width, "  "),
    `Basis: ${chosen.basis}`,
    ...(chosen.note === undefined ? [] : [wrapped(`Note: ${chosen.note}`, width, "  ")]),
    "",
    table(columns, rows),
  ].join("\n");
}
