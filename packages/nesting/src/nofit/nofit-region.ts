import { arranged } from "./arrangement.js";
import { convolution } from "./convolution.js";
import { doubledArea, extentOf, type Polygon, type Ring } from "./polygon.js";
import { boundaryWhere } from "./winding.js";

/**
 * The no-fit region of two polygons: all positions p of the moving one, relative to the fixed one, where their
 * interiors overlap. Moving along its boundary the two touch; outside they are apart.
 *
 * (Art 1966; Bennell and Oliveira 2008, "The geometry of nesting problems: a tutorial".)
 *
 * For polygons without openings it is the set where their convolution has a positive winding number. A polygon with
 * openings is first treated as filled; then, for each opening the other polygon may fit into, the positions in which it
 * lies wholly inside the opening are taken out again: there the convolution of the opening's ring (which runs
 * clockwise) has winding number -1, because the frame around the opening and the polygon meet in 0 pieces.
 *
 * Returns rings with the region on their left: outer rings counter-clockwise, rings around allowed positions (pockets,
 * openings, exact fits) clockwise. Both polygons lie on the grid and have been shrunk by a hair (`grid.ts`), which keeps
 * exact fits as thin allowed channels; sliver rings that are thinner than a channel are rounding and are dropped.
 *
 * Cost: that of convolution and arrangement. Measured on a busy machine: under 1 ms for two shapes of 10 corners, 3 ms for
 * 30, 10 ms for 200 on smooth outlines; two random stars of 100 spikes, whose curve crosses itself 100,000 times, 0.7 s.
 */
export function noFitRegion(fixed: Polygon, moving: Polygon, hair: number): Ring[] {
  const rings = sumRings(fixed.outer, moving.outer, (winding) => winding > 0, hair);
  for (const opening of fixed.openings) {
    if (!mayFit(moving.outer, opening)) continue;
    rings.push(...sumRings(opening, moving.outer, (winding) => winding >= 0, hair));
  }
  for (const opening of moving.openings) {
    if (!mayFit(fixed.outer, opening)) continue;
    rings.push(...sumRings(fixed.outer, opening, (winding) => winding >= 0, hair));
  }
  return rings;
}

function sumRings(a: Ring, b: Ring, rule: (winding: number) => boolean, hair: number): Ring[] {
  const pieces = arranged(convolution(a, b));
  return boundaryWhere(pieces, rule)
    .map(withoutStraightCorners)
    .filter((ring) => ring.length >= 6 && !isSliver(ring, hair));
}

/** Whether a polygon could lie inside an opening, judged by boxes and areas. */
function mayFit(polygon: Ring, opening: Ring): boolean {
  const p = extentOf(polygon);
  const o = extentOf(opening);
  return (
    p.maxX - p.minX <= o.maxX - o.minX &&
    p.maxY - p.minY <= o.maxY - o.minY &&
    Math.abs(doubledArea(polygon)) <= Math.abs(doubledArea(opening))
  );
}

/**
 * Corners that lie within a step of the line through their neighbours add edges but no shape. Neighbours are those still
 * there: of two corners a step apart only one may go.
 */
function withoutStraightCorners(ring: Ring): Ring {
  const kept = Array.from(ring);
  for (let i = 0; i < kept.length && kept.length > 6; ) {
    const n = kept.length;
    const p = (i + n - 2) % n;
    const q = (i + 2) % n;
    const ux = kept[i] - kept[p];
    const uy = kept[i + 1] - kept[p + 1];
    const vx = kept[q] - kept[i];
    const vy = kept[q + 1] - kept[i + 1];
    const chord = Math.hypot(ux + vx, uy + vy);
    if (ux * vx + uy * vy > 0 && Math.abs(ux * vy - uy * vx) <= 1.5 * chord) kept.splice(i, 2);
    else i += 2;
  }
  return Float64Array.from(kept);
}

/** Thinner than a channel between two shrunk shapes (4 hairs wide) could be, on average along its length. */
function isSliver(ring: Ring, hair: number): boolean {
  let length = 0;
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const q = i + 2 === n ? 0 : i + 2;
    length += Math.hypot(ring[q] - ring[i], ring[q + 1] - ring[i + 1]);
  }
  return Math.abs(doubledArea(ring)) < hair * length;
}
