import type { Point } from "./contour.js";
import { segmentIntersections } from "./intersect.js";
import { nearestOnSegment } from "./nearest.js";
import { offsetSegment } from "./raw-offset.js";
import { type ArcSegment, parameterOf, type Segment } from "./segment.js";
import { distanceBetween, positiveAngle } from "./vector.js";

/** An arc tangent to two segments, and the parameters of the tangent points on them. */
export interface Fillet {
  readonly arc: ArcSegment;
  readonly onBefore: number;
  readonly onAfter: number;
}

/**
 * The arc of `radius` (mm) that leaves `before` and arrives on `after` tangentially, turning left or right; of several
 * the one nearest to `near`. Undefined when no such arc touches both segments between their ends.
 *
 * Its centre lies at `radius` from both: where their offsets to the inner side of the turn meet.
 */
export function filletBetween(
  before: Segment,
  after: Segment,
  radius: number,
  turn: "left" | "right",
  near: Point,
): Fillet | undefined {
  const way = turn === "left" ? 1 : -1;
  const [offsetBefore, offsetAfter] = [
    offsetSegment(before, -way * radius),
    offsetSegment(after, -way * radius),
  ];
  if (offsetBefore === undefined || offsetAfter === undefined) return undefined;
  const [center] = segmentIntersections(offsetBefore, offsetAfter).sort(
    (p, q) => distanceBetween(p, near) - distanceBetween(q, near),
  );
  if (center === undefined) return undefined;
  const from = nearestOnSegment(before, center);
  const to = nearestOnSegment(after, center);
  const startAngle = Math.atan2(from.y - center.y, from.x - center.x);
  const endAngle = Math.atan2(to.y - center.y, to.x - center.x);
  return {
    arc: {
      kind: "arc",
      from,
      to,
      center: { x: center.x, y: center.y },
      radius,
      startAngle,
      sweep: way * positiveAngle(way * (endAngle - startAngle)),
    },
    onBefore: parameterOf(before, from),
    onAfter: parameterOf(after, to),
  };
}
