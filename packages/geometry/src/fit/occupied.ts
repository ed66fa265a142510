import { bounds } from "../contour/bounds.js";
import type { Contour } from "../contour/contour.js";

/** A stretch along x. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * The parts of a stretch along x that stay free of what is already there, at the given height.
 *
 * @param span the stretch wanted
 * @param low lower, @param high upper limit of the band it needs, across
 * @param taken contours that must be kept away from
 * @param web distance to keep, mm
 */
export function freeSpans(
  span: Span,
  low: number,
  high: number,
  taken: readonly Contour[],
  web: number,
): readonly Span[] {
  const posts = taken
    .map(bounds)
    .filter((box) => box.maxY > low - web && box.minY < high + web)
    .map((box) => ({ from: box.minX - web, to: box.maxX + web }))
    .sort((a, b) => a.from - b.from);
  const free: Span[] = [];
  let { from } = span;
  for (const post of posts) {
    if (post.from > from) free.push({ from, to: Math.min(post.from, span.to) });
    from = Math.max(from, post.to);
  }
  free.push({ from, to: span.to });
  return free.filter((piece) => piece.to > piece.from);
}
