import type { Contour, Point } from "../../contour/contour.js";
import { flatten } from "../../contour/flatten.js";

/** Arcs are flattened this finely, mm; extents come out too large by twice this at most. */
const CHORD_ERROR = 0.0005;

/** The least distance of two parallel lines that hold the contour between them, mm: its width however it is turned. */
export function narrowestExtent(contour: Contour): number {
  const hull = convexHull(flatten(contour, CHORD_ERROR, "outside"));
  const widths = hull.map((from, index) => {
    const to = hull[(index + 1) % hull.length] ?? from;
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    const heights = hull.map(
      (point) => ((to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x)) / length,
    );
    return Math.max(...heights);
  });
  return Math.min(...widths);
}

/** The largest distance of two points of the contour, mm. */
export function longestExtent(contour: Contour): number {
  const hull = convexHull(flatten(contour, CHORD_ERROR, "outside"));
  let longest = 0;
  for (const a of hull) for (const b of hull) longest = Math.max(longest, Math.hypot(a.x - b.x, a.y - b.y));
  return longest;
}

/** Counter-clockwise hull without points on its sides (Andrew's monotone chain, 1979). */
function convexHull(points: readonly Point[]): readonly Point[] {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const lower = chain(sorted);
  const upper = chain(sorted.reverse());
  return [...lower.slice(0, -1), ...upper.slice(0, -1)];
}

function chain(points: readonly Point[]): readonly Point[] {
  const kept: Point[] = [];
  for (const point of points) {
    while (kept.length > 1 && !turnsLeft(kept.at(-2) as Point, kept.at(-1) as Point, point)) kept.pop();
    kept.push(point);
  }
  return kept;
}

function turnsLeft(a: Point, b: Point, c: Point): boolean {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) > 0;
}
