export interface Column {
  readonly title: string;
  /** Numbers stand on the right. */
  readonly right?: boolean;
}

/** Rows as aligned columns, two spaces apart, without lines or trailing blanks. */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const lines = [columns.map((column) => column.title), ...rows];
  const widths = columns.map((_, index) => Math.max(...lines.map((line) => lengthOf(line[index] ?? ""))));
  return lines
    .map((line) =>
      columns
        .map((column, index) => padded(line[index] ?? "", widths[index] ?? 0, column.right === true))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}

function padded(text: string, width: number, right: boolean): string {
  const gap = " ".repeat(Math.max(0, width - lengthOf(text)));
  return right ? gap + text : text + gap;
}

/** Characters, not code units. Colours are added after alignment. */
function lengthOf(text: string): number {
  return [...text].length;
}
