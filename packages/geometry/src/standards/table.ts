import { nearestNames, UnknownEntry } from "./unknown-entry.js";

/**
 * Where the values of a table come from: `standard` = as a public reproduction of the named standard prints them (no
 * purchased copy was opened), `from memory` = recalled and not confirmed, `common practice` = what the trade does,
 * `computed` = from the formula in the source.
 */
export type Basis = "standard" | "common practice" | "from memory" | "computed";

/** What a table holds and who says so. */
export interface TableFacts {
  /** Short and stable, for example `iso-4762`. */
  readonly id: string;
  readonly title: string;
  readonly source: string;
  /** The weakest basis of any column; the note names columns that differ. */
  readonly basis: Basis;
  readonly unit: string;
  readonly note?: string;
}

/** Rows by name. `columns` are the properties of a row that the catalog prints, in order. */
export interface Table<Row> extends TableFacts {
  /** Heading of the names, for example `thread`. */
  readonly key: string;
  readonly columns: readonly string[];
  readonly rows: Readonly<Record<string, Row>>;
}

/** A table of numbers, typed in as the standard prints it: one tuple a row, as long as the columns. */
export function numberTable<const Columns extends readonly string[]>(
  facts: TableFacts,
  key: string,
  columns: Columns,
  tuples: Readonly<Record<string, { readonly [I in keyof Columns]: number }>>,
): Table<{ readonly [Name in Columns[number]]: number }> {
  type Row = { readonly [Name in Columns[number]]: number };
  const rows = Object.entries(tuples).map(([name, tuple]) => {
    const values = tuple as readonly number[];
    return [name, Object.fromEntries(columns.map((column, i) => [column, values[i]])) as Row] as const;
  });
  return { ...facts, key, columns, rows: Object.fromEntries(rows) };
}

/** A table with further columns that follow from each row. */
export function extended<Row extends object, More extends object>(
  table: Table<Row>,
  columns: readonly (keyof More & string)[],
  more: (row: Row, name: string) => More,
): Table<Row & More> {
  const rows = Object.entries(table.rows).map(
    ([name, row]) => [name, { ...row, ...more(row, name) }] as const,
  );
  return { ...table, columns: [...table.columns, ...columns], rows: Object.fromEntries(rows) };
}

/** The row of that name; throws UnknownEntry with the nearest names. */
export function lookUp<Row>(table: Table<Row>, asked: string): Row {
  const row = Object.hasOwn(table.rows, asked) ? table.rows[asked] : undefined;
  if (row === undefined)
    throw new UnknownEntry(table.title, asked, nearestNames(asked, Object.keys(table.rows)));
  return row;
}
