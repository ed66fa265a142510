import type { Contour } from "./contour.js";

/**
 * A text that two contours share when moving and turning one gives the other, vertex by vertex, to a thousandth of the
 * tolerance: lengths of the chords, turns between them, and bulges. Mirror images differ.
 */
export function congruenceKey(contour: Contour): string {
  const parts: string[] = [];
  const count = contour.length;
  for (let index = 0; index < count; index++) {
    const [before, at, after] = [
      contour[(index + count - 1) % count],
      contour[index],
      contour[(index + 1) % count],
    ];
    if (before === undefined || at === undefined || after === undefined) continue;
    const [inX, inY] = [at.x - before.x, at.y - before.y];
    const [outX, outY] = [after.x - at.x, after.y - at.y];
    const turn = Math.atan2(inX * outY - inY * outX, inX * outX + inY * outY);
    parts.push(digits(Math.hypot(outX, outY)), digits(turn), digits(at.bulge));
  }
  return parts.join(" ");
}

function digits(value: number): string {
  const rounded = Math.round(value * 1e9);
  return String(rounded === 0 ? 0 : rounded);
}
