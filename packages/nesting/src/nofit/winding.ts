import { side } from "./exact.js";
import type { Ring } from "./polygon.js";
import type { Segments } from "./segments.js";

/**
 * The boundary of the set of points where the winding number of an arrangement satisfies a rule.
 *
 * Each piece is classified from its middle: a level ray to the right counts the windings on one
 * side, the piece's own count gives the other. All signs are exact (coordinates are doubled, so middles are integers).
 * Pieces with the rule true on exactly one side are kept, pointing so that the true side is on the left, and chained
 * into rings. Because the arrangement is balanced at every corner, so is what is kept, and every chain closes.
 *
 * Cost: pieces times the pieces crossing one of about sqrt(n) level rows, so O(n sqrt(n)) in practice.
 */
export function boundaryWhere(pieces: Segments, rule: (winding: number) => boolean): Ring[] {
  const rows = rowsOf(pieces);
  const startX: number[] = [];
  const startY: number[] = [];
  const endX: number[] = [];
  const endY: number[] = [];
  for (let k = 0; k < pieces.size; k++) {
    if (pieces.count[k] === 0) continue;
    // Pieces point up, or right when level: the ray to the right leaves on the right side, but above a level piece.
    const level = pieces.y0[k] === pieces.y1[k];
    const seen = windingBeside(pieces, rows, k);
    const left = level ? seen : seen + pieces.count[k];
    const right = level ? seen - pieces.count[k] : seen;
    const leftTrue = rule(left);
    if (leftTrue === rule(right)) continue;
    startX.push(leftTrue ? pieces.x0[k] : pieces.x1[k]);
    startY.push(leftTrue ? pieces.y0[k] : pieces.y1[k]);
    endX.push(leftTrue ? pieces.x1[k] : pieces.x0[k]);
    endY.push(leftTrue ? pieces.y1[k] : pieces.y0[k]);
  }
  return chained(startX, startY, endX, endY);
}

interface Rows {
  readonly minY: number;
  readonly perStep: number;
  readonly lists: readonly number[][];
}

function rowsOf(pieces: Segments): Rows {
  let minY = Infinity;
  let maxY = -Infinity;
  for (let k = 0; k < pieces.size; k++) {
    minY = Math.min(minY, pieces.y0[k]);
    maxY = Math.max(maxY, pieces.y1[k]);
  }
  const count = Math.max(1, Math.min(512, Math.round(2 * Math.sqrt(pieces.size))));
  const perStep = count / Math.max(1, maxY - minY + 1);
  const lists: number[][] = Array.from({ length: count }, () => []);
  for (let k = 0; k < pieces.size; k++) {
    const last = Math.floor((pieces.y1[k] - minY) * perStep);
    for (let row = Math.floor((pieces.y0[k] - minY) * perStep); row <= last; row++) lists[row].push(k);
  }
  return { minY, perStep, lists };
}

/** Winding number right beside the middle of piece k: to its right, or above it when it is level. */
function windingBeside(pieces: Segments, rows: Rows, k: number): number {
  const { x0, y0, x1, y1, count } = pieces;
  const px = x0[k] + x1[k];
  const py = y0[k] + y1[k];
  const row = Math.min(rows.lists.length - 1, Math.floor((py / 2 - rows.minY) * rows.perStep));
  let winding = 0;
  for (const l of rows.lists[row]) {
    if (l === k || 2 * y0[l] > py || 2 * y1[l] <= py) continue;
    const right =
      2 * x0[l] > px && 2 * x1[l] > px
        ? true
        : 2 * x0[l] < px && 2 * x1[l] < px
          ? false
          : side(2 * x0[l], 2 * y0[l], 2 * x1[l], 2 * y1[l], px, py) > 0;
    // The ray meets a piece that points up: the region on the piece's left, where we stand, winds once more.
    if (right) winding += count[l];
  }
  return winding;
}

/** Rings from directed edges; at a corner shared by several rings the sharpest right turn is taken, so rings touch but do not cross. */
function chained(startX: number[], startY: number[], endX: number[], endY: number[]): Ring[] {
  const n = startX.length;
  const leaving = new Map<string, number[]>();
  for (let k = 0; k < n; k++) {
    const key = `${startX[k]},${startY[k]}`;
    const list = leaving.get(key);
    if (list === undefined) leaving.set(key, [k]);
    else list.push(k);
  }
  const used = new Uint8Array(n);
  const rings: Ring[] = [];
  for (let first = 0; first < n; first++) {
    if (used[first]) continue;
    const corners: number[] = [];
    let k = first;
    while (!used[k]) {
      used[k] = 1;
      corners.push(startX[k], startY[k]);
      const choices = (leaving.get(`${endX[k]},${endY[k]}`) ?? []).filter((l) => !used[l]);
      const dx = endX[k] - startX[k];
      const dy = endY[k] - startY[k];
      let best = -1;
      let bestAngle = Infinity;
      for (const l of choices) {
        const ex = endX[l] - startX[l];
        const ey = endY[l] - startY[l];
        const angle = choices.length === 1 ? 0 : Math.atan2(dx * ey - dy * ex, dx * ex + dy * ey);
        if (angle < bestAngle) {
          bestAngle = angle;
          best = l;
        }
      }
      if (best < 0) break;
      k = best;
    }
    rings.push(Float64Array.from(corners));
  }
  return rings;
}
