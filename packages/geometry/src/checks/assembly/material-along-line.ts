import { type Box, boxesMeet, grownBox, pieceBounds, segmentBounds } from "../../contour/bounds.js";
import type { Point, Region } from "../../contour/contour.js";
import { segmentIntersections } from "../../contour/intersect.js";
import { rayCrossings } from "../../contour/locate.js";
import { nearestOnSegment } from "../../contour/nearest.js";
import { line, type Segment, segments } from "../../contour/segment.js";
import { TOLERANCE } from "../../contour/tolerance.js";
import { distanceBetween } from "../../contour/vector.js";

/** A stretch of a line, from one parameter to another, mm. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The pieces of a region's contours, laid open once: every line across it looks at the same ones. */
export type Material = readonly { readonly segment: Segment; readonly box: Box }[];

export function materialOf(region: Region): Material {
  return [region.outer, ...region.openings].flatMap((contour) => {
    const boxes = pieceBounds(contour);
    return segments(contour).flatMap((segment, index) => {
      const box = boxes[index];
      return box === undefined ? [] : [{ segment, box: grownBox(box, TOLERANCE) }];
    });
  });
}

/**
 * The stretches of a straight line that lie in a region's material, in order.
 *
 * @param direction unit vector; parameters count mm from `origin`
 * @param reach half the length of line that is looked at
 */
export function materialAlongLine(
  region: Region,
  origin: Point,
  direction: Point,
  reach: number,
): readonly Stretch[] {
  return stretchesAlong(materialOf(region), origin, direction, { from: -reach, to: reach });
}

/** The same for a region that many lines cross; `window` is the part of the line that is looked at. */
export function stretchesAlong(
  pieces: Material,
  origin: Point,
  direction: Point,
  window: Stretch,
): readonly Stretch[] {
  const at = (t: number): Point => ({ x: origin.x + t * direction.x, y: origin.y + t * direction.y });
  const probe = line(at(window.from), at(window.to));
  const reach = segmentBounds(probe);
  const cuts = [window.from, window.to];
  for (const { segment, box } of pieces) {
    if (!boxesMeet(box, reach)) continue;
    for (const { x, y } of segmentIntersections(probe, segment)) {
      cuts.push((x - origin.x) * direction.x + (y - origin.y) * direction.y);
    }
  }
  cuts.sort((a, b) => a - b);
  return cuts.slice(1).flatMap((to, index): Stretch[] => {
    const from = cuts[index] ?? to;
    if (to - from < 1e-9 || !isInside(pieces, at((from + to) / 2))) return [];
    return [{ from, to }];
  });
}

/** By counting contours to the right of the point; on one of them it is not inside. */
function isInside(material: Material, point: Point): boolean {
  let crossings = 0;
  for (const { segment, box } of material) {
    if (box.minY > point.y || box.maxY < point.y || box.maxX < point.x) continue;
    if (box.minX <= point.x && distanceBetween(nearestOnSegment(segment, point), point) <= TOLERANCE)
      return false;
    crossings += rayCrossings(segment, point);
  }
  return crossings % 2 === 1;
}

/** Longest common stretch of two sets, or undefined when they share less than `least` mm. */
export function commonStretch(
  a: readonly Stretch[],
  b: readonly Stretch[],
  least: number,
): Stretch | undefined {
  let longest: Stretch | undefined;
  for (const one of a) {
    for (const other of b) {
      const from = Math.max(one.from, other.from);
      const to = Math.min(one.to, other.to);
      if (to - from >= least && (longest === undefined || to - from > longest.to - longest.from)) {
        longest = { from, to };
      }
    }
  }
  return longest;
}
