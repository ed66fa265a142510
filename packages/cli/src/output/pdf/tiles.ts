/** Sheets of paper a plate can be printed on, mm, upright (ISO 216; ANSI/ASME Y14.1 size A). */
export const papers = {
  A4: { width: 210, height: 297 },
  A3: { width: 297, height: 420 },
  Letter: { width: 215.9, height: 279.4 },
} as const;

export type Paper = keyof typeof papers;

/** Strip no desktop printer is sure to print on, mm (common practice). */
export const EDGE = 10;
/** Strip at the foot for the check bar and the note, mm. */
export const FOOT = 16;
/** Width neighbouring pages share, so that they can be glued on one another, mm. */
export const OVERLAP = 10;

/** One page: which part of the drawing it shows. */
export interface Tile {
  readonly column: number;
  readonly row: number;
  /** Lower-left corner of the part, in the drawing's coordinates, mm. */
  readonly x: number;
  readonly y: number;
}

/** How a drawing is spread over pages. */
export interface Tiling {
  readonly pageWidth: number;
  readonly pageHeight: number;
  /** Size of the part of the drawing a page can show, mm. */
  readonly width: number;
  readonly height: number;
  readonly columns: number;
  readonly rows: number;
  /** Row by row from the top, as one lays them out. */
  readonly tiles: readonly Tile[];
}

/**
 * Spreads a drawing at 1:1 over pages of one paper, upright or across, whichever takes fewer; upright when equal.
 *
 * A drawing that fits one page lies in the middle of it.
 */
export function tilingOf(width: number, height: number, paper: Paper): Tiling {
  const { width: short, height: long } = papers[paper];
  const upright = tilingOn(short, long, width, height);
  const across = tilingOn(long, short, width, height);
  return across.tiles.length < upright.tiles.length ? across : upright;
}

function tilingOn(pageWidth: number, pageHeight: number, width: number, height: number): Tiling {
  const tileWidth = pageWidth - 2 * EDGE;
  const tileHeight = pageHeight - 2 * EDGE - FOOT;
  const columns = pieces(width, tileWidth);
  const rows = pieces(height, tileHeight);
  const left = startOf(width, tileWidth, columns);
  const bottom = startOf(height, tileHeight, rows);
  const tiles: Tile[] = [];
  for (let row = rows - 1; row >= 0; row--) {
    for (let column = 0; column < columns; column++) {
      tiles.push({
        column,
        row,
        x: left + column * (tileWidth - OVERLAP),
        y: bottom + row * (tileHeight - OVERLAP),
      });
    }
  }
  return { pageWidth, pageHeight, width: tileWidth, height: tileHeight, columns, rows, tiles };
}

function pieces(length: number, tile: number): number {
  return length <= tile ? 1 : Math.ceil((length - OVERLAP) / (tile - OVERLAP) - 1e-9);
}

/** The tiles together are larger than the drawing: the rest is shared between both sides. */
function startOf(length: number, tile: number, count: number): number {
  return -(count * (tile - OVERLAP) + OVERLAP - length) / 2;
}
