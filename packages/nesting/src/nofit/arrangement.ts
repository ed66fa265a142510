import { preciseSide } from "./exact.js";
import { addSegment, emptySegments, type Segments } from "./segments.js";

/**
 * Cuts crossing segments into pieces that meet only at their ends, all on the integer grid.
 *
 * Crossings are rounded to the grid, which moves pieces by less than a step and can make new crossings; so cutting is
 * repeated until nothing crosses (in the spirit of snap rounding: Hobby 1999, "Practical segment intersection with
 * finite precision output"; usually two or three rounds). Every test is exact on the coordinates of its round. A cut
 * replaces a segment by a chain from the same start to the same end, so closed curves stay closed and winding numbers
 * stay well defined, whatever the rounding did.
 *
 * Pieces that coincide are merged and their counts added.
 *
 * Cost: each round sorts by x and tests pairs whose boxes overlap; O(n log n + pairs).
 */
export function arranged(segments: Segments): Segments {
  let pieces = merged(segments);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const cuts = findCuts(pieces);
    if (cuts === undefined) return pieces;
    pieces = merged(cutUp(pieces, cuts));
  }
  return pieces;
}

/**
 * Rounding settles in two or three rounds; the limit guards against an unforeseen cycle. Pieces that crossed even then
 * would do so by a step or so of the grid, far below what a layout is checked for.
 */
const MOST_ROUNDS = 24;

/** The points at which segments are to be cut, three numbers each: segment, x, y. */
type Cuts = number[];

function findCuts(s: Segments): Cuts | undefined {
  const cuts: Cuts = [];
  const order = Array.from({ length: s.size }, (_, k) => k);
  const left = (k: number): number => Math.min(s.x0[k], s.x1[k]);
  order.sort((k, l) => left(k) - left(l));
  const active: number[] = [];
  for (const k of order) {
    const minX = left(k);
    const minY = Math.min(s.y0[k], s.y1[k]);
    const maxY = Math.max(s.y0[k], s.y1[k]);
    let kept = 0;
    for (let i = 0; i < active.length; i++) {
      const l = active[i];
      if (Math.max(s.x0[l], s.x1[l]) < minX - 1) continue;
      active[kept++] = l;
      if (Math.max(s.y0[l], s.y1[l]) < minY - 1 || Math.min(s.y0[l], s.y1[l]) > maxY + 1) continue;
      cutPair(s, k, l, cuts);
    }
    active.length = kept;
    active.push(k);
  }
  return cuts.length === 0 ? undefined : cuts;
}

function cutPair(s: Segments, k: number, l: number, cuts: Cuts): void {
  const ax = s.x0[k];
  const ay = s.y0[k];
  const bx = s.x1[k];
  const by = s.y1[k];
  const cx = s.x0[l];
  const cy = s.y0[l];
  const dx = s.x1[l];
  const dy = s.y1[l];
  const c = preciseSide(ax, ay, bx, by, cx, cy);
  const d = preciseSide(ax, ay, bx, by, dx, dy);
  const nearK = NEAR * Math.hypot(bx - ax, by - ay);
  if (c > nearK && d > nearK) return;
  if (c < -nearK && d < -nearK) return;
  const a = preciseSide(cx, cy, dx, dy, ax, ay);
  const b = preciseSide(cx, cy, dx, dy, bx, by);
  const nearL = NEAR * Math.hypot(dx - cx, dy - cy);
  const before = cuts.length;
  if (Math.abs(c) <= nearK) cutWithin(k, ax, ay, bx, by, cx, cy, cuts);
  if (Math.abs(d) <= nearK) cutWithin(k, ax, ay, bx, by, dx, dy, cuts);
  if (Math.abs(a) <= nearL) cutWithin(l, cx, cy, dx, dy, ax, ay, cuts);
  if (Math.abs(b) <= nearL) cutWithin(l, cx, cy, dx, dy, bx, by, cuts);
  if (cuts.length > before || !(c > 0 ? d < 0 : c < 0 && d > 0) || !(a > 0 ? b < 0 : a < 0 && b > 0)) return;
  const t = c / (c - d);
  const x = Math.round(cx + t * (dx - cx));
  const y = Math.round(cy + t * (dy - cy));
  if ((x !== ax || y !== ay) && (x !== bx || y !== by)) cuts.push(k, x, y);
  if ((x !== cx || y !== cy) && (x !== dx || y !== dy)) cuts.push(l, x, y);
}

/**
 * An end this close to a segment, in steps, is put on it. Without that, two nearly parallel segments can be cut at ever
 * new crossings, each a few steps along from the last.
 */
const NEAR = 0.75;

/** Cuts segment k at a point near its line if the point lies between its ends. */
function cutWithin(
  k: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  x: number,
  y: number,
  cuts: Cuts,
): void {
  if ((x === ax && y === ay) || (x === bx && y === by)) return;
  const along = (x - ax) * (bx - ax) + (y - ay) * (by - ay);
  if (along > 0 && along < (bx - ax) ** 2 + (by - ay) ** 2) cuts.push(k, x, y);
}

function cutUp(s: Segments, cuts: Cuts): Segments {
  const first = new Int32Array(s.size).fill(-1);
  const next = new Int32Array(cuts.length / 3);
  for (let c = 0; c < next.length; c++) {
    next[c] = first[cuts[3 * c]];
    first[cuts[3 * c]] = c;
  }
  const result = emptySegments(s.size + next.length);
  const chain: { x: number; y: number; along: number }[] = [];
  for (let k = 0; k < s.size; k++) {
    const dx = s.x1[k] - s.x0[k];
    const dy = s.y1[k] - s.y0[k];
    chain.length = 0;
    for (let c = first[k]; c >= 0; c = next[c]) {
      const x = cuts[3 * c + 1];
      const y = cuts[3 * c + 2];
      chain.push({ x, y, along: (x - s.x0[k]) * dx + (y - s.y0[k]) * dy });
    }
    chain.sort((p, q) => p.along - q.along);
    let x = s.x0[k];
    let y = s.y0[k];
    for (const cut of chain) {
      addSegment(result, x, y, cut.x, cut.y, s.count[k]);
      x = cut.x;
      y = cut.y;
    }
    addSegment(result, x, y, s.x1[k], s.y1[k], s.count[k]);
  }
  return result;
}

/** Segments with the same two ends become one, pointing up (right when level), with the counts added. */
function merged(s: Segments): Segments {
  const up = emptySegments(s.size);
  for (let k = 0; k < s.size; k++) {
    const forward = s.y0[k] < s.y1[k] || (s.y0[k] === s.y1[k] && s.x0[k] < s.x1[k]);
    if (forward) addSegment(up, s.x0[k], s.y0[k], s.x1[k], s.y1[k], s.count[k]);
    else addSegment(up, s.x1[k], s.y1[k], s.x0[k], s.y0[k], -s.count[k]);
  }
  const order = Array.from({ length: up.size }, (_, k) => k);
  order.sort(
    (k, l) => up.x0[k] - up.x0[l] || up.y0[k] - up.y0[l] || up.x1[k] - up.x1[l] || up.y1[k] - up.y1[l],
  );
  const result = emptySegments(up.size);
  for (const k of order) {
    const last = result.size - 1;
    if (
      last >= 0 &&
      result.x0[last] === up.x0[k] &&
      result.y0[last] === up.y0[k] &&
      result.x1[last] === up.x1[k] &&
      result.y1[last] === up.y1[k]
    ) {
      result.count[last] += up.count[k];
    } else {
      addSegment(result, up.x0[k], up.y0[k], up.x1[k], up.y1[k], up.count[k]);
    }
  }
  return result;
}
