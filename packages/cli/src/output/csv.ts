import { plainDecimal } from "./plain-decimal.js";

/** A cell: text, or a number that a spreadsheet may calculate with. */
export type Cell = string | number | undefined;

/**
 * Rows as CSV (RFC 4180: comma, CRLF, quotes doubled), numbers with a dot and never an exponent, UTF-8 without mark.
 *
 * Text that a spreadsheet would take for a formula is kept text by a leading apostrophe (the usual protection against formula
 * injection); numbers are written as numbers, so a credit of -3.50 stays one.
 */
export function csv(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(cellText).join(",")}\r\n`).join("");
}

function cellText(cell: Cell): string {
  if (cell === undefined) return "";
  if (typeof cell === "number") return numberText(cell);
  const safe = safeText(cell);
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/**
 * Text no spreadsheet runs: an apostrophe before what starts, after blanks, with a sign a formula can start with; the
 * full-width forms are taken for the plain ones by some programs.
 */
export function safeText(text: string): string {
  return /^[\s\u00a0\ufeff]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r\n]/.test(text) ? `'${text}` : text;
}

function numberText(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a table cannot hold ${value}`);
  const text = String(value === 0 ? 0 : value);
  return text.includes("e") ? plainDecimal(value, 15) : text;
}
