import type { Extent } from "../nofit/polygon.js";
import { type Gaps, takeOut } from "./gaps.js";
import { STRIDE, type Trapezoids } from "./trapezoids.js";

/** Something that lies on the sheet already. */
export interface Obstacle {
  readonly pieces: Trapezoids;
  readonly box: Extent;
}

/** The thing that looks for a place, in its own frame; it would lie at (x, y). */
export interface Mover {
  readonly pieces: Trapezoids;
  readonly box: Extent;
}

/** Overlaps shallower than this are touching, mm: a hundredth of what `verify` allows, far above rounding. */
export const TOUCH = 1e-8;

/**
 * Takes out of `gaps` every y at which the mover, at the given x, would overlap an obstacle.
 *
 * For two trapezoids that share a stretch of x, the forbidden y are those between the least of (obstacle's low minus
 * mover's high) and the greatest of (obstacle's high minus mover's low) over the stretch; both differences are linear
 * in x, so the ends of the stretch decide. Convex pieces make this the exact slice through the no-fit region, with no
 * polygon ever built. Rounding in a steep edge shifts its height, not its place: the error stays near 1e-12 mm across.
 *
 * Cost: pieces of the mover times the obstacle's pieces over or under them, for obstacles that can still matter.
 */
export function forbid(mover: Mover, x: number, obstacles: readonly Obstacle[], gaps: Gaps): void {
  const near: Obstacle[] = [];
  const left = mover.box.minX + x;
  const right = mover.box.maxX + x;
  for (const obstacle of obstacles) {
    if (obstacle.box.minX < right - TOUCH && obstacle.box.maxX > left + TOUCH) near.push(obstacle);
  }
  for (const obstacle of near) {
    if (!mayMatter(mover, obstacle, gaps)) continue;
    const right = obstacle.box.maxX - x;
    let start = 0;
    for (let at = 0; at < mover.pieces.length; at += STRIDE) {
      const pieceLeft = mover.pieces[at] + TOUCH;
      if (pieceLeft >= right) break;
      while (start < obstacle.pieces.length && obstacle.pieces[start + 1] - x <= pieceLeft) start += STRIDE;
      forbidPiece(mover.pieces, at, x, obstacle, start, gaps);
    }
    if (gaps.count === 0) return;
  }
}

/** False when no gap that is left lets the mover reach the obstacle's box. */
function mayMatter(mover: Mover, obstacle: Obstacle, gaps: Gaps): boolean {
  const low = obstacle.box.minY - mover.box.maxY;
  const high = obstacle.box.maxY - mover.box.minY;
  for (let gap = 0; gap < gaps.count; gap++) {
    if (gaps.ends[2 * gap] < high && gaps.ends[2 * gap + 1] > low) return true;
  }
  return false;
}

function forbidPiece(
  mover: Trapezoids,
  at: number,
  x: number,
  obstacle: Obstacle,
  start: number,
  gaps: Gaps,
): void {
  const left = mover[at] + x;
  const right = mover[at + 1] + x;
  if (obstacle.box.minX >= right - TOUCH || obstacle.box.maxX <= left + TOUCH) return;
  const low = mover[at + 2];
  const lowSlope = mover[at + 3];
  const high = mover[at + 4];
  const highSlope = mover[at + 5];
  const others = obstacle.pieces;
  let bottom = Infinity;
  let top = -Infinity;
  for (let k = start; k < others.length; k += STRIDE) {
    const otherLeft = others[k];
    if (otherLeft >= right - TOUCH) break;
    const otherRight = others[k + 1];
    const from = Math.max(left, otherLeft);
    const to = Math.min(right, otherRight);
    if (to - from <= TOUCH) continue;
    const mine = from - left;
    const theirs = from - otherLeft;
    const width = to - from;
    const otherLow = others[k + 3];
    const otherHigh = others[k + 5];
    const under = others[k + 2] + otherLow * theirs - (high + highSlope * mine);
    const over = others[k + 4] + otherHigh * theirs - (low + lowSlope * mine);
    const underSlope = otherLow - highSlope;
    const overSlope = otherHigh - lowSlope;
    const least = (underSlope < 0 ? under + underSlope * width : under) + TOUCH;
    const greatest = (overSlope > 0 ? over + overSlope * width : over) - TOUCH;
    if (least >= greatest) continue;
    // Neighbouring pieces of one obstacle nearly always forbid overlapping intervals: join them first.
    if (least < top && greatest > bottom) {
      if (least < bottom) bottom = least;
      if (greatest > top) top = greatest;
    } else {
      takeOut(gaps, bottom, top);
      bottom = least;
      top = greatest;
    }
  }
  takeOut(gaps, bottom, top);
}
