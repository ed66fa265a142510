import { html, type Markup } from "./html.js";

export type Cell = Markup | string | number | undefined;

export interface Column {
  readonly heading: string;
  /** Figures stand to the right. */
  readonly numeric?: boolean;
  /** Takes half the width when sentences stand beside sentences. */
  readonly wide?: boolean;
}

export interface TableOptions {
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  /** On a narrow screen each row becomes a block with its headings; for rows of sentences. */
  readonly stacks?: boolean;
  readonly footer?: readonly Cell[];
}

/** A table with a caption and headed columns; the first cell of a row heads the row. Roles are spelled out because a stacked table loses its own. */
export function table(options: TableOptions): Markup {
  const { columns } = options;
  const body = options.rows.map((cells) => row(columns, cells));
  const foot = options.footer && html`<tfoot role="rowgroup">${row(columns, options.footer)}</tfoot>`;
  const kind = options.stacks ? "stacks" : "plain";
  return html`<div class="table-frame"><table role="table" class="${kind}">
<caption>${options.caption}</caption>
<thead role="rowgroup"><tr role="row">${columns.map((c) => html`<th role="columnheader" scope="col"${headingClass(c)}>${c.heading}</th>`)}</tr></thead>
<tbody role="rowgroup">${body}</tbody>${foot}
</table></div>
`;
}

function row(columns: readonly Column[], cells: readonly Cell[]): Markup {
  if (cells.length !== columns.length) {
    throw new RangeError(`a table row has ${cells.length} cells for ${columns.length} columns`);
  }
  return html`<tr role="row">${columns.map((column, i) => cell(column, cells[i], i === 0))}</tr>
`;
}

function cell(column: Column, content: Cell, isHead: boolean): Markup {
  if (isHead) {
    return html`<th role="rowheader" scope="row"${figureClass(column)}>${content}</th>`;
  }
  return html`<td role="cell" data-heading="${column.heading}"${figureClass(column)}>${content !== undefined && html`<div>${content}</div>`}</td>`;
}

function headingClass(column: Column): Markup | undefined {
  return column.wide ? html` class="wide"` : figureClass(column);
}

function figureClass(column: Column): Markup | undefined {
  return column.numeric ? html` class="figure"` : undefined;
}
