import { type Box, boxesMeet, grownBox, segmentBounds } from "../../contour/bounds.js";
import type { Point, Region } from "../../contour/contour.js";
import { segmentIntersections } from "../../contour/intersect.js";
import { locateInRegion } from "../../contour/locate.js";
import { line, type Segment, segments } from "../../contour/segment.js";
import { TOLERANCE } from "../../contour/tolerance.js";

/** A stretch of a line, from one parameter to another, mm. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A region with its pieces laid open once: every line across it looks at the same ones. */
export interface Material {
  readonly region: Region;
  readonly pieces: readonly { readonly segment: Segment; readonly box: Box }[];
}

export function materialOf(region: Region): Material {
  return {
    region,
    pieces: [region.outer, ...region.openings]
      .flatMap((contour) => segments(contour))
      .map((segment) => ({ segment, box: grownBox(segmentBounds(segment), TOLERANCE) })),
  };
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
  { region, pieces }: Material,
  origin: Point,
  direction: Point,
  window: Stretch,
): readonly Stretch[] {
  const at = (t: number): Point => ({ x: origin.x + t * direction.x, y: origin.y + t * direction.y });
  const probe = line(at(window.from), at(window.to));
  const reach = segmentBounds(probe);
  const cuts = pieces
    .filter(({ box }) => boxesMeet(box, reach))
    .flatMap(({ segment }) => segmentIntersections(probe, segment))
    .map(({ x, y }) => (x - origin.x) * direction.x + (y - origin.y) * direction.y)
    .concat(window.from, window.to)
    .sort((a, b) => a - b);
  return cuts.slice(1).flatMap((to, index): Stretch[] => {
    const from = cuts[index] ?? to;
    if (to - from < 1e-9 || locateInRegion(region, at((from + to) / 2)) !== "inside") return [];
    return [{ from, to }];
  });
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
