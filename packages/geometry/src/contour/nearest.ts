import type { Point } from "./contour.js";
import { arcParameter, type Segment } from "./segment.js";
import { distanceBetween } from "./vector.js";

/** The point of a segment nearest to a point; any of them when the point is the centre of an arc. */
export function nearestOnSegment(segment: Segment, point: Point): Point {
  return segment.kind === "line"
    ? nearestOnLine(segment.from, segment.to, point)
    : nearestOnArc(segment, point);
}

function nearestOnLine(from: Point, to: Point, point: Point): Point {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : ((point.x - from.x) * dx + (point.y - from.y) * dy) / square;
  if (t <= 0) return from;
  if (t >= 1) return to;
  return { x: from.x + dx * t, y: from.y + dy * t };
}

function nearestOnArc(piece: Segment & { kind: "arc" }, point: Point): Point {
  const { center, radius, from, to } = piece;
  const dx = point.x - center.x;
  const dy = point.y - center.y;
  const away = Math.hypot(dx, dy);
  if (away > 0 && arcParameter(piece, Math.atan2(dy, dx)) !== undefined) {
    return { x: center.x + (dx / away) * radius, y: center.y + (dy / away) * radius };
  }
  return distanceBetween(from, point) <= distanceBetween(to, point) ? from : to;
}
