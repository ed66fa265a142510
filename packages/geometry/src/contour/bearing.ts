import type { Point } from "./contour.js";
import type { Segment } from "./segment.js";

/** The direction (radians) from an end of a segment, `at`, to its point at distance `reach` from there; `leaves` when the segment starts there. */
export function bearing(segment: Segment, at: Point, reach: number, leaves: boolean): number {
  const far = leaves ? segment.to : segment.from;
  if (segment.kind === "line") return Math.atan2(far.y - at.y, far.x - at.x);
  const { startAngle, sweep, center, radius } = segment;
  const step = 2 * Math.asin(Math.min(1, reach / (2 * radius))) * Math.sign(sweep);
  const angle = leaves ? startAngle + step : startAngle + sweep - step;
  return Math.atan2(center.y + radius * Math.sin(angle) - at.y, center.x + radius * Math.cos(angle) - at.x);
}
