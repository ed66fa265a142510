import type { Point, Region } from "../../contour/contour.js";
import { segmentIntersections } from "../../contour/intersect.js";
import { locateInRegion } from "../../contour/locate.js";
import { line, segments } from "../../contour/segment.js";

/** A stretch of a line, from one parameter to another, mm. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
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
  const at = (t: number): Point => ({ x: origin.x + t * direction.x, y: origin.y + t * direction.y });
  const probe = line(at(-reach), at(reach));
  const cuts = [region.outer, ...region.openings]
    .flatMap((contour) => segments(contour))
    .flatMap((segment) => segmentIntersections(probe, segment))
    .map(({ x, y }) => (x - origin.x) * direction.x + (y - origin.y) * direction.y)
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
