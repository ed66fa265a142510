import { productDifference } from "./exact.js";
import type { Ring } from "./polygon.js";
import { addSegment, emptySegments, type Segments } from "./segments.js";

/**
 * The convolution of two closed polygons: the curve whose winding number tells how often they meet.
 *
 * Guibas, Ramshaw and Stolfi 1983, "A kinetic framework for computational geometry"; used for Minkowski sums by Wein
 * 2006, "Exact and efficient construction of planar Minkowski sums using the convolution method".
 *
 * For polygon A and the point reflection C of B, the curve runs through every pair (edge of one, corner of the other)
 * whose edge direction lies within the turn the boundary makes at the corner; at a corner that turns right the edge is
 * run backwards. The winding number of the curve at p is the Euler characteristic of A meeting B + p: the number of
 * pieces in which they overlap, as long as no piece encloses a hole, which holds for two polygons without openings.
 * So p is allowed exactly where the winding number is 0. No convex decomposition is needed.
 *
 * Segments of right-turning corners never bound the sum (Behar and Lien 2011, "Fast and robust 2D Minkowski sum using
 * reduced convolution"), but they are kept: after rounding, a piece of one a few steps long can stand in for a piece of
 * the boundary, and leaving it out opens the ring.
 *
 * Parallel edges: C is thought of as turned by an infinitely small angle to the left, which decides every tie the same
 * way and keeps the curve closed.
 *
 * Cost: one angle test for each pair of edge and corner, n * m; the curve has n + m segments for convex polygons and
 * at most 2 n m.
 *
 * Integer coordinates (see `grid.ts`).
 */
export function convolution(a: Ring, b: Ring): Segments {
  const c = reflected(b);
  const segments = emptySegments(2 * (a.length + c.length));
  addEdgesAtCorners(segments, a, c, true);
  addEdgesAtCorners(segments, c, a, false);
  return segments;
}

/** Every edge of `edges` carried by the corners of `corners`; `later` when the corners' polygon is the one turned a little to the left. */
function addEdgesAtCorners(segments: Segments, edges: Ring, corners: Ring, later: boolean): void {
  const n = edges.length;
  const m = corners.length;
  for (let j = 0; j < m; j += 2) {
    const before = (j + m - 2) % m;
    const after = (j + 2) % m;
    const cx = corners[j];
    const cy = corners[j + 1];
    const inX = cx - corners[before];
    const inY = cy - corners[before + 1];
    const outX = corners[after] - cx;
    const outY = corners[after + 1] - cy;
    const turn = productDifference(inX, outY, inY, outX);
    if (turn === 0) continue;
    const left = turn > 0;
    const startX = left ? inX : outX;
    const startY = left ? inY : outY;
    const endX = left ? outX : inX;
    const endY = left ? outY : inY;
    for (let i = 0; i < n; i += 2) {
      const next = i + 2 === n ? 0 : i + 2;
      const dx = edges[next] - edges[i];
      const dy = edges[next + 1] - edges[i + 1];
      const fromStart = productDifference(startX, dy, startY, dx);
      if (later ? fromStart <= 0 : fromStart < 0) continue;
      const toEnd = productDifference(dx, endY, dy, endX);
      if (later ? toEnd < 0 : toEnd <= 0) continue;
      addSegment(
        segments,
        edges[i] + cx,
        edges[i + 1] + cy,
        edges[next] + cx,
        edges[next + 1] + cy,
        left ? 1 : -1,
      );
    }
  }
}

/** The point reflection p -> -p, which keeps the direction of the ring. */
function reflected(ring: Ring): Ring {
  return ring.map((value) => -value);
}
