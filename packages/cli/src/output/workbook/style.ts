import type { Cell, CellValue, Worksheet } from "exceljs";

const HEADER_FILL = "FFDCE6EC";
const INPUT_COLOUR = "FF1F4E9E";
const FONT = { name: "Calibri", size: 11 } as const;
/** Points a line of this font takes. */
const LINE_HEIGHT = 15;

/** A header row: bold on a light ground, numbers' titles to the right as the numbers are. */
export function header(
  sheet: Worksheet,
  row: number,
  titles: readonly string[],
  numbers: readonly number[] = [],
): void {
  for (const [index, title] of titles.entries()) {
    const cell = sheet.getCell(row, index + 1);
    cell.value = title;
    cell.font = { ...FONT, bold: true };
    cell.fill = { type: "pattern", pattern: "solid", fgColor: { argb: HEADER_FILL } };
    const right = numbers.includes(index + 1);
    cell.alignment = {
      vertical: "top",
      wrapText: true,
      ...(right ? { horizontal: "right" } : { horizontal: "left", indent: index === 0 ? 0 : 1 }),
    };
  }
  fitHeight(sheet, row, titles);
}

/** Rows of plain values below a header. Returns the row after them. */
export function table(
  sheet: Worksheet,
  row: number,
  titles: readonly string[],
  rows: readonly (readonly CellValue[])[],
): number {
  const numbers = titles.flatMap((_, index) =>
    rows.length > 0 && rows.every((values) => typeof values[index] === "number") ? [index + 1] : [],
  );
  header(sheet, row, titles, numbers);
  for (const [index, values] of rows.entries()) {
    const at = row + 1 + index;
    for (const [column, value] of values.entries()) {
      const cell = sheet.getCell(at, column + 1);
      if (typeof value === "string") putText(cell, value, column);
      else cell.value = value;
      cell.alignment = { ...cell.alignment, vertical: "top", wrapText: true };
    }
    fitHeight(sheet, at, values);
  }
  return row + 1 + rows.length;
}

/** Text with a little room to the number before it. */
export function putText(cell: Cell, text: string, column: number): void {
  cell.value = printable(text);
  cell.alignment = { vertical: "top", horizontal: "left", indent: column === 0 ? 0 : 1 };
}

/** Not every program makes a row as high as its wrapped text, so the height is set from the column widths. */
export function fitHeight(sheet: Worksheet, row: number, values: readonly CellValue[]): void {
  const lines = values.map((value, index) => {
    // A column's width counts digits; text with its narrow letters takes a tenth less.
    const room = Math.max(1, ((sheet.getColumn(index + 1).width ?? 10) - 2) * 1.1);
    return typeof value === "string" ? Math.ceil(value.length / room) : 1;
  });
  sheet.getRow(row).height = LINE_HEIGHT * Math.max(1, ...lines);
}

/** What the reader may change. */
export function inputStyle(cell: Cell): void {
  cell.font = { ...FONT, color: { argb: INPUT_COLOUR } };
}

export function totalStyle(sheet: Worksheet, row: number, columns: number): void {
  for (let column = 1; column <= columns; column++) {
    const cell = sheet.getCell(row, column);
    cell.font = { ...FONT, bold: true };
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
