import type { Cell, CellValue, Worksheet } from "exceljs";

const HEADER_FILL = "FFDCE6EC";
const INPUT_COLOUR = "FF1F4E9E";

/** A header row: bold on a light ground. */
export function header(sheet: Worksheet, row: number, titles: readonly string[]): void {
  for (const [index, title] of titles.entries()) {
    const cell = sheet.getCell(row, index + 1);
    cell.value = title;
    cell.font = { bold: true };
    cell.fill = { type: "pattern", pattern: "solid", fgColor: { argb: HEADER_FILL } };
    cell.alignment = { vertical: "top", wrapText: true };
  }
}

/** Rows of plain values below a header. Returns the row after them. */
export function table(
  sheet: Worksheet,
  row: number,
  titles: readonly string[],
  rows: readonly (readonly CellValue[])[],
): number {
  header(sheet, row, titles);
  for (const [index, values] of rows.entries()) {
    for (const [column, value] of values.entries()) {
      const cell = sheet.getCell(row + 1 + index, column + 1);
      cell.value = typeof value === "string" ? printable(value) : value;
      cell.alignment = { vertical: "top", wrapText: true };
    }
  }
  return row + 1 + rows.length;
}

/** What the reader may change. */
export function inputStyle(cell: Cell): void {
  cell.font = { color: { argb: INPUT_COLOUR } };
}

export function totalStyle(sheet: Worksheet, row: number, columns: number): void {
  for (let column = 1; column <= columns; column++) {
    const cell = sheet.getCell(row, column);
    cell.font = { bold: true };
    cell.border = { top: { style: "thin" } };
  }
}

export function setWidths(sheet: Worksheet, widths: readonly number[]): void {
  for (const [index, width] of widths.entries()) sheet.getColumn(index + 1).width = width;
  sheet.pageSetup = {
    orientation: "landscape",
    paperSize: 9,
    fitToPage: true,
    fitToWidth: 1,
    fitToHeight: 0,
  };
}

export function moneyFormat(exponent: number): string {
  return exponent === 0 ? "#,##0" : `#,##0.${"0".repeat(exponent)}`;
}

/** Text without the control characters that XML cannot hold. */
export function printable(text: string): string {
  return Array.from(text, (character) => (isPrintable(character) ? character : " ")).join("");
}

function isPrintable(character: string): boolean {
  const code = character.codePointAt(0) ?? 0;
  if (code === 9 || code === 10) return true;
  if (code < 32) return false;
  const loneSurrogate = code >= 0xd800 && code <= 0xdfff;
  return !loneSurrogate && code !== 0xfffe && code !== 0xffff;
}
