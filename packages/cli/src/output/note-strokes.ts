import type { Path } from "@keelcut/geometry";
import { missingLetters, strokeText, strokeTextWidth } from "./strokes.js";

/** Room between the drawing's edge and the note, and between its lines, in letter heights. */
const GAP = 1;
const LINE = 1.9;

/**
 * The note set in single strokes in lines above y = `top`, starting at x = 0: outside the stock, and never at
 * negative coordinates. Facts that have characters without strokes are left out.
 */
export function noteStrokes(note: readonly string[], top: number, width: number, height: number): Path[] {
  const lines = wrap(
    note.filter((fact) => missingLetters(fact).length === 0),
    width,
    height,
  );
  return lines.flatMap((line, index) => {
    const above = top + height * (GAP + 0.5 + LINE * (lines.length - 1 - index));
    return strokeText(line, { x: 0, y: above }, height).strokes;
  });
}

/** Facts joined by " - " as long as they fit; a fact wider than `width` has a line of its own. */
function wrap(facts: readonly string[], width: number, height: number): string[] {
  const lines: string[] = [];
  for (const fact of facts) {
    const last = lines.at(-1);
    const joined = `${last} - ${fact}`;
    if (last !== undefined && strokeTextWidth(joined, height) <= width) lines[lines.length - 1] = joined;
    else lines.push(fact);
  }
  return lines;
}
