import { type CatalogTable, catalog as tables } from "@keelcut/geometry";
import { exitCodes } from "../exit-codes.js";
import { inputError } from "../input/input-error.js";
import { didYouMean } from "../input/nearest-name.js";
import { painted } from "../screen/colour.js";
import { counted } from "../screen/number-text.js";
import type { Screen } from "../screen/screen.js";
import { table } from "../screen/table.js";
import { wrapped } from "../screen/wrapped.js";
import type { JsonOption } from "./options.js";

/** Lists the built-in tables, or prints the one asked for with its source. */
export function catalog(id: string | undefined, options: JsonOption, screen: Screen): number {
  const all = tables();
  if (id === undefined) {
    screen.print(options.json === true ? jsonList(all) : list(all, screen));
    return exitCodes.fine;
  }
  const chosen = all.find((each) => each.id === id);
  if (chosen === undefined) {
    const guess = didYouMean(
      id,
      all.map((each) => each.id),
    );
    throw inputError("catalog", `there is no table "${id}"${guess || "; keelcut catalog lists them"}`);
  }
  screen.print(options.json === true ? JSON.stringify(chosen, undefined, 2) : printed(chosen, screen));
  return exitCodes.fine;
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
  const foot = `${counted(all.length, "table")}; keelcut catalog <table> prints one with its source.`;
  return `${table(columns, rows)}\n\n${painted(foot, "dim", screen.colour)}`;
}

function printed(chosen: CatalogTable, screen: Screen): string {
  const columns = chosen.columns.map((title, index) => ({
    title,
    right: chosen.rows.some((row) => typeof row[index] === "number"),
  }));
  const rows = chosen.rows.map((row) => row.map((cell) => (cell === null ? "-" : String(cell))));
  const width = Math.max(60, Math.min(screen.width, 110));
  return [
    painted(`${chosen.title} (${chosen.unit})`, "bold", screen.colour),
    wrapped(`Source: ${chosen.source}`, width, "  "),
    `Basis: ${chosen.basis}`,
    ...(chosen.note === undefined ? [] : [wrapped(`Note: ${chosen.note}`, width, "  ")]),
    "",
    table(columns, rows),
  ].join("\n");
}
