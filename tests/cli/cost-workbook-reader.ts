import { createRequire } from "node:module";

/** As much of a spreadsheet as the tests look at. */
export interface CellOf {
  readonly type: number;
  readonly address: string;
  readonly formula: string | undefined;
  readonly result: unknown;
  readonly text: string;
  value: unknown;
}

export interface RowOf {
  getCell(column: number): CellOf;
  eachCell(visit: (cell: CellOf) => void): void;
}

export interface SheetOf {
  readonly name: string;
  readonly views: readonly object[];
  getCell(address: string): CellOf;
  getColumn(number: number): { readonly width?: number };
  eachRow(visit: (row: RowOf) => void): void;
}

export interface WorkbookOf {
  readonly worksheets: readonly SheetOf[];
  readonly xlsx: { load(bytes: ArrayBuffer): Promise<unknown>; writeBuffer(): Promise<ArrayBuffer> };
  getWorksheet(name: string): SheetOf | undefined;
}

/** Kinds of a cell's value, as the library numbers them. */
export const STRING = 3;
export const FORMULA = 6;

const fromCli = createRequire(new URL("../../packages/cli/package.json", import.meta.url));
const library = fromCli("exceljs") as {
  Workbook: new () => WorkbookOf;
  ValueType: { String: number; Formula: number };
};

export async function readWorkbook(bytes: Uint8Array): Promise<WorkbookOf> {
  const { String: string, Formula: formula } = library.ValueType;
  if (string !== STRING || formula !== FORMULA) throw new Error("the library numbers its values anew");
  const workbook = new library.Workbook();
  await workbook.xlsx.load(new Uint8Array(bytes).buffer);
  return workbook;
}

export function allCells(workbook: WorkbookOf): { readonly sheet: string; readonly cell: CellOf }[] {
  const cells: { sheet: string; cell: CellOf }[] = [];
  for (const sheet of workbook.worksheets) {
    sheet.eachRow((row) => row.eachCell((cell) => cells.push({ sheet: sheet.name, cell })));
  }
  return cells;
}
