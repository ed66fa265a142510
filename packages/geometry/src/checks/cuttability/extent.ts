import { bounds } from "../../contour/bounds.js";
import type { Contour, Point } from "../../contour/contour.js";
import { flatten } from "../../contour/flatten.js";
import { signedArea } from "../../contour/measure.js";
import { rememberedFor } from "../../remember.js";

/** Arcs are flattened this finely, mm; extents come out too large by twice this at most. */
const CHORD_ERROR = 0.0005;

/** The least distance of two parallel lines that hold the contour between them, mm: its width however it is turned. */
export function narrowestExtent(contour: Contour): number {
  return Math.min(...antipodesOf(contour).map(({ height }) => height));
}

/** The largest distance of two points of the contour, mm. */
export function longestExtent(contour: Contour): number {
  let longest = 0;
  for (const { from, to, far } of antipodesOf(contour)) {
    longest = Math.max(longest, squared(from, far), squared(to, far));
  }
  return Math.sqrt(longest);
}

/** No less than `longestExtent`, and found at once: the diagonal of the box. */
export function longestAtMost(contour: Contour): number {
  const box = bounds(contour);
  return Math.hypot(box.maxX - box.minX, box.maxY - box.minY) + 4 * CHORD_ERROR;
}

/** No less than `narrowestExtent`, and found at once: the shorter side of the box. */
export function narrowestAtMost(contour: Contour): number {
  const box = bounds(contour);
  return Math.min(box.maxX - box.minX, box.maxY - box.minY) + 4 * CHORD_ERROR;
}

/** No more than `narrowestExtent`: what is held by two lines is no larger than their distance times its longest extent. */
export function narrowestAtLeast(contour: Contour): number {
  return Math.abs(signedArea(contour)) / longestAtMost(contour);
}

const antipodesOf = rememberedFor((contour: Contour) =>
  antipodes(convexHull(flatten(contour, CHORD_ERROR, "outside"))),
);

/** A side of a hull and the corner farthest from it. */
interface Antipode {
  readonly from: Point;
  readonly to: Point;
  readonly far: Point;
  /** Distance of that corner from the side, mm. */
  readonly height: number;
}

/**
 * Every side with its farthest corner, in one walk around the hull (rotating calipers: Shamos 1978). The width is least
 * across a side; the two farthest corners are a side's end and its antipode.
 */
function antipodes(hull: readonly Point[]): readonly Antipode[] {
  const count = hull.length;
  let far = 1;
  return hull.map((from, index): Antipode => {
    const to = hull[(index + 1) % count] ?? from;
    const area = (corner: Point): number =>
      (to.x - from.x) * (corner.y - from.y) - (to.y - from.y) * (corner.x - from.x);
    let corner = hull[far] ?? from;
    for (let step = 0; step < count; step += 1) {
      const next = hull[(far + 1) % count] ?? from;
      if (area(next) < area(corner)) break;
      far = (far + 1) % count;
      corner = next;
    }
    return { from, to, far: corner, height: area(corner) / Math.sqrt(squared(from, to)) };
  });
}

function squared(a: Point, b: Point): number {
  return (a.x - b.x) ** 2 + (a.y - b.y) ** 2;
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
