import type { Path, Point } from "@keelcut/geometry";
import { strokeLetters } from "./stroke-letters.js";

/** Height of a capital in the units of the letter data. */
const CAPITAL = 21;
/** Part of a capital's height that `g`, `_` or a bracket hangs below the base line. */
export const DESCENT: number = 7 / CAPITAL;

/** A text as open single strokes. */
export interface StrokedText {
  readonly strokes: readonly Path[];
  /** Length of the base line the text takes, mm. */
  readonly width: number;
}

/**
 * Sets one line of text in single strokes: what a cutter or laser can engrave, with no live text in the file.
 *
 * `at` is the start of the base line, `height` the height of a capital in mm, `rotation` in degrees
 * counter-clockwise. Letters with accents are drawn without them.
 *
 * @throws RangeError for a character that has no strokes; ask {@link missingLetters} first.
 */
export function strokeText(text: string, at: Point, height: number, rotation = 0): StrokedText {
  if (!(height > 0 && Number.isFinite(height)))
    throw new RangeError(`letter height ${height} is not positive`);
  const scale = height / CAPITAL;
  const turn = unitVector(rotation);
  const strokes: Path[] = [];
  let pen = 0;
  for (const letter of plain(text)) {
    const [width, data] = letterData(letter);
    for (const stroke of data === "" ? [] : data.split("; ")) {
      const vertices = stroke.split(" ").map((pair) => {
        const [x = 0, y = 0] = pair.split(",").map(Number);
        const along = (pen + x) * scale;
        const up = y * scale;
        return {
          x: at.x + along * turn.x - up * turn.y,
          y: at.y + along * turn.y + up * turn.x,
          bulge: 0,
        };
      });
      strokes.push({ vertices, closed: false });
    }
    pen += width;
  }
  return { strokes, width: pen * scale };
}

/** Length of the base line a text takes, mm. */
export function strokeTextWidth(text: string, height: number): number {
  let units = 0;
  for (const letter of plain(text)) units += letterData(letter)[0];
  return (units * height) / CAPITAL;
}

/** The characters of a text that have no strokes, each once. */
export function missingLetters(text: string): string[] {
  return [...new Set(plain(text))].filter((letter) => strokeLetters[letter] === undefined);
}

function letterData(letter: string): readonly [number, string] {
  const data = strokeLetters[letter];
  if (data === undefined) throw new RangeError(`no strokes for the character "${letter}"`);
  return data;
}

/** Accents come off, so that names in most Latin alphabets stay readable. */
function plain(text: string): string {
  return text.normalize("NFD").replace(/\p{Mn}/gu, "");
}

/** Exact for quarter turns, which most labels have. */
function unitVector(degrees: number): Point {
  const quarter = ((degrees % 360) + 360) % 360;
  if (quarter === 0) return { x: 1, y: 0 };
  if (quarter === 90) return { x: 0, y: 1 };
  if (quarter === 180) return { x: -1, y: 0 };
  if (quarter === 270) return { x: 0, y: -1 };
  const angle = (degrees * Math.PI) / 180;
  return { x: Math.cos(angle), y: Math.sin(angle) };
}
