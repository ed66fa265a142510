import type { Path, Point } from "@keelcut/geometry";
import { missingLetters, strokeText, strokeTextWidth } from "../strokes.js";
import { EDGE, FOOT, OVERLAP, type Tile, type Tiling } from "./tiles.js";

/** Length of the bar that shows whether a printer scaled the page, mm. */
const BAR = 100;
const TEXT = 2.6;

/**
 * What is printed beside the drawing on every page, in millimetres from the page's lower-left corner: the check bar,
 * what to do with it, the page's place among its neighbours. All text in single strokes: no font can garble it.
 */
export function footPaths(tiling: Tiling, tile: Tile, facts: readonly string[]): Path[] {
  const base = EDGE + 2;
  const bar = barPaths({ x: EDGE, y: base });
  const say = (text: string, line: number): Path[] =>
    missingLetters(text).length > 0
      ? []
      : [...strokeText(text, { x: EDGE, y: base + 4 + line * 4 }, fittedHeight(text, tiling)).strokes];
  const beside = strokeText("100 mm: measure it", { x: EDGE + BAR + 4, y: base - 1 }, TEXT).strokes;
  return [...bar, ...beside, ...say(pageText(tiling, tile), 0), ...say(facts.join(" - "), 1)];
}

/**
 * Diamonds in the middle of each strip two pages share: laid on one another they join the pages. Not crosses, which next to
 * a hole would be taken for its centre.
 */
export function joinMarks(tiling: Tiling, tile: Tile): Path[] {
  const { width, height, columns, rows } = tiling;
  const left = tile.x;
  const bottom = tile.y;
  const marks: Path[] = [];
  const along = [0.2, 0.8];
  const half = OVERLAP / 2;
  if (tile.column > 0)
    marks.push(...along.flatMap((t) => diamond({ x: left + half, y: bottom + height * t })));
  if (tile.column < columns - 1) {
    marks.push(...along.flatMap((t) => diamond({ x: left + width - half, y: bottom + height * t })));
  }
  if (tile.row > 0) marks.push(...along.flatMap((t) => diamond({ x: left + width * t, y: bottom + half })));
  if (tile.row < rows - 1) {
    marks.push(...along.flatMap((t) => diamond({ x: left + width * t, y: bottom + height - half })));
  }
  return marks;
}

/** Where the drawing's part lies on the page, mm from its lower-left corner. */
export function frameOrigin(): Point {
  return { x: EDGE, y: EDGE + FOOT };
}

function pageText(tiling: Tiling, tile: Tile): string {
  const count = tiling.tiles.length;
  const how = "print at 100 %, not fitted to the page";
  if (count === 1) return how;
  const number = tiling.tiles.indexOf(tile) + 1;
  return `page ${number} of ${count}: column ${tile.column + 1} from the left, row ${tile.row + 1} from below - ${how}`;
}

/** As large as {@link TEXT} or smaller, so that the line ends on the page. */
function fittedHeight(text: string, tiling: Tiling): number {
  return Math.min(TEXT, (TEXT * tiling.width) / strokeTextWidth(text, TEXT));
}

/** A tick every 10 mm, the ends twice as tall. */
function barPaths(at: Point): Path[] {
  const paths = [open(at, { x: at.x + BAR, y: at.y })];
  for (let x = 0; x <= BAR; x += 10) {
    const tall = x === 0 || x === BAR ? 2 : 1;
    paths.push(open({ x: at.x + x, y: at.y - tall }, { x: at.x + x, y: at.y + tall }));
  }
  return paths;
}

function diamond({ x, y }: Point): Path[] {
  const reach = OVERLAP / 2 - 1;
  const corners = [
    { x: x + reach, y, bulge: 0 },
    { x, y: y + reach, bulge: 0 },
    { x: x - reach, y, bulge: 0 },
    { x, y: y - reach, bulge: 0 },
  ];
  return [{ vertices: corners, closed: true }];
}

function open(from: Point, to: Point): Path {
  return {
    vertices: [
      { ...from, bulge: 0 },
      { ...to, bulge: 0 },
    ],
    closed: false,
  };
}
