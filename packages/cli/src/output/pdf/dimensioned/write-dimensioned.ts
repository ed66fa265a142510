import { bounds, type Contour, flatten, type Path, type Plate, type Point } from "@keelcut/geometry";
import { sheetText } from "../../sheet-text.js";
import { newPdf } from "../pdf-document.js";
import { dimensionLines } from "./dimension-lines.js";
import { DIMENSIONS, type DrawingPage, drawingPage } from "./drawing-scale.js";
import { length, type OpeningRow, openingTable, radiiText } from "./opening-table.js";
import { type PagePen, pagePen } from "./page-pen.js";
import { CROSS, type Stroke, TAG_HEIGHT, tagPlaces } from "./tag-places.js";

/** What a dimensioned drawing says beside the plate's shape. */
export interface PlateFacts {
  readonly plate: Plate;
  /** Name of the frame and its revision. */
  readonly frame: string;
  readonly revision: string;
  /** Copies to cut in all, spares included. */
  readonly quantity: number;
  /** The plate's own lines and texts as strokes, in its frame. */
  readonly marks: readonly Path[];
}

/** Height of one table row and of its letters, mm. */
const ROW = 4.4;
const TEXT = 2.2;
/** Height of the title block, mm. */
const TITLE = 52;

/**
 * A dimensioned drawing of one plate in its nominal size, across on A4 or A3 at a scale that is stated: extents, a table
 * with the middle and size of every opening, radii of the outline, and what the plate is made of. The same bytes for the
 * same plate.
 */
export function writeDimensioned(facts: PlateFacts): Promise<Uint8Array> {
  const { plate } = facts;
  const { document, bytes } = newPdf(`${facts.frame}: ${plate.name}`);
  const box = bounds(plate.region.outer);
  const page = drawingPage(box.maxX - box.minX, box.maxY - box.minY);
  const rows = openingTable(plate);
  const first = Math.floor((page.height - 20 - TITLE - 2 * ROW) / ROW);
  const more = Math.floor((page.height - 20 - 2 * ROW) / ROW);
  const pen = pagePen(document, page.width, page.height);
  drawShape(pen, page, facts, rows);
  titleBlock(pen, page, facts);
  drawTable(pen, page.tables.x, page.height - 10, rows.slice(0, first));
  let rest = rows.slice(first);
  if (rest.length > 0) {
    pen.text(
      `${rest.length} more openings on the next page`,
      { x: page.tables.x, y: 10 + TITLE + 1.5 },
      TEXT,
    );
  }
  while (rest.length > 0) {
    const next = pagePen(document, page.width, page.height);
    const columns = Math.floor((page.width - 20) / (page.tables.width + 6));
    for (let column = 0; column < columns; column++) {
      const x = 10 + column * (page.tables.width + 6);
      if (rest.length > 0) drawTable(next, x, page.height - 10, rest.slice(0, more));
      rest = rest.slice(more);
    }
  }
  document.end();
  return bytes;
}

function drawShape(
  pen: PagePen,
  page: DrawingPage,
  { plate, marks }: PlateFacts,
  rows: readonly OpeningRow[],
): void {
  const box = bounds(plate.region.outer);
  const { scale, room } = page;
  const size = { x: (box.maxX - box.minX) * scale, y: (box.maxY - box.minY) * scale };
  const corner: Point = {
    x: room.x + DIMENSIONS + (room.width - DIMENSIONS - size.x) / 2,
    y: room.y + DIMENSIONS + (room.height - DIMENSIONS - size.y) / 2,
  };
  const onPage = ({ x, y }: Point): Point => ({
    x: corner.x + (x - box.minX) * scale,
    y: corner.y + (y - box.minY) * scale,
  });
  const contours = [plate.region.outer, ...plate.region.openings];
  pen.lines(marks, 0.13, onPage, "#777777");
  pen.lines(
    contours.map((vertices) => ({ vertices, closed: true })),
    0.35,
    onPage,
  );
  const tags = rows.map(({ tag, middle, half }) => ({
    middle: { x: corner.x + middle.x * scale, y: corner.y + middle.y * scale },
    half: { x: half.x * scale, y: half.y * scale },
    length: pen.length(tag, TAG_HEIGHT),
  }));
  const places = tagPlaces(
    tags,
    contours.flatMap((contour) => strokesOf(contour, scale, onPage)),
  );
  for (const { middle } of tags) pen.lines(crossAt(middle), 0.1);
  places.forEach((at, index) => {
    pen.text(rows[index]?.tag ?? "", at, TAG_HEIGHT);
  });
  dimensionLines(pen, corner, size, length(size.x / scale), length(size.y / scale));
}

/** A contour as straight strokes on the page, to a twentieth of a millimetre there. */
function strokesOf(contour: Contour, scale: number, onPage: (point: Point) => Point): Stroke[] {
  const points = flatten(contour, 0.05 / scale, "on").map(onPage);
  return points.map((point, index): Stroke => [points.at(index - 1) ?? point, point]);
}

function crossAt({ x, y }: Point): Path[] {
  const stroke = (from: Point, to: Point): Path => ({
    vertices: [
      { ...from, bulge: 0 },
      { ...to, bulge: 0 },
    ],
    closed: false,
  });
  return [stroke({ x: x - CROSS, y }, { x: x + CROSS, y }), stroke({ x, y: y - CROSS }, { x, y: y + CROSS })];
}

/** Left edges of the table's columns: tag, x, y, size, name. */
const COLUMNS = [0, 8, 21, 34, 76];

function drawTable(pen: PagePen, x: number, top: number, rows: readonly OpeningRow[]): void {
  const line = (cells: readonly string[], y: number, bold: boolean): void => {
    cells.forEach((cell, index) => {
      const left = x + (COLUMNS[index] ?? 0);
      const right = x + (COLUMNS[index + 1] ?? 104) - 1.5;
      const numeric = index === 1 || index === 2;
      const fitted = Math.min(TEXT, (TEXT * (right - left)) / pen.length(cell, TEXT));
      pen.text(cell, { x: numeric ? right : left, y }, fitted, { align: numeric ? "right" : "left", bold });
    });
  };
  if (rows.length === 0) {
    pen.text("no openings", { x, y: top - TEXT }, TEXT);
    return;
  }
  line(["", "x", "y", "size", "opening"], top - TEXT, true);
  pen.line({ x, y: top - ROW + 1 }, { x: x + 104, y: top - ROW + 1 });
  rows.forEach((row, index) => {
    const y = top - TEXT - ROW * (index + 1);
    line([row.tag, length(row.middle.x), length(row.middle.y), row.size, row.name], y, false);
  });
}

function titleBlock(pen: PagePen, page: DrawingPage, facts: PlateFacts): void {
  const { plate, frame, revision, quantity } = facts;
  const { x, width } = page.tables;
  const radii = radiiText(plate.region.outer);
  const lines: readonly (readonly [string, string])[] = [
    ["plate", `${plate.name} (${plate.id})`],
    ["of", revision === "" ? frame : `${frame}, revision ${revision}`],
    ["material", sheetText(plate.sheet)],
    ["count", `${plate.count} in a kit, ${quantity} in all`],
    ["outline radii", radii === "" ? "none" : radii],
    ["scale", `${page.scaleText} on ${page.width > 300 ? "A3" : "A4"}, printed at 100 %`],
    ["lengths", "mm, x and y from the lower left corner of the outline's box"],
    ["size", "finished plate (nominal), seen on its marked face"],
  ];
  pen.lines(
    [
      {
        vertices: [
          { x: x - 2, y: 10, bulge: 0 },
          { x: x + width, y: 10, bulge: 0 },
          { x: x + width, y: 8 + TITLE, bulge: 0 },
          { x: x - 2, y: 8 + TITLE, bulge: 0 },
        ],
        closed: true,
      },
    ],
    0.25,
  );
  lines.forEach(([name, value], index) => {
    const y = 8 + TITLE - 5.2 - index * 6;
    const room = width - 28;
    const size = index === 0 ? 3 : 2.4;
    pen.text(name, { x, y }, 1.9);
    pen.text(value, { x: x + 25, y }, Math.min(size, (size * room) / pen.length(value, size)), {
      bold: index === 0,
    });
  });
}
