import { type Box, pieceBounds, pointBoxDistance } from "./bounds.js";
import type { Contour, Point, Region } from "./contour.js";
import { nearestOnSegment } from "./nearest.js";
import { type ArcSegment, type Segment, segments } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween, refuseNonFinite } from "./vector.js";

export type Side = "inside" | "on" | "outside";

/** Where a point lies to a contour, whichever way it runs; within `tolerance` (mm) of the curve it is on it. */
export function locate(contour: Contour, point: Point, tolerance: number = TOLERANCE): Side {
  refuseNonFinite(point, "point");
  return locateAmong(segments(contour), pieceBounds(contour), point, tolerance);
}

/** Where a point lies to the material of a region; on any contour it is on. */
export function locateInRegion(region: Region, point: Point, tolerance: number = TOLERANCE): Side {
  const outer = locate(region.outer, point, tolerance);
  if (outer !== "inside") return outer;
  for (const opening of region.openings) {
    const side = locate(opening, point, tolerance);
    if (side === "on") return "on";
    if (side === "inside") return "outside";
  }
  return "inside";
}

function locateAmong(
  pieces: readonly Segment[],
  boxes: readonly Box[],
  point: Point,
  tolerance: number,
): Side {
  let crossings = 0;
  for (const [index, piece] of pieces.entries()) {
    const box = boxes[index];
    if (box !== undefined && pointBoxDistance(point, box) <= tolerance) {
      if (distanceBetween(nearestOnSegment(piece, point), point) <= tolerance) return "on";
    }
    crossings += rayCrossings(piece, point);
  }
  return crossings % 2 === 0 ? "outside" : "inside";
}

/**
 * How often the ray from the point towards +x crosses the segment. A segment counts at its lower end and not
 * at its upper one, so that a ray through a vertex is counted once (the half-open rule for polygons).
 */
export function rayCrossings(segment: Segment, point: Point): number {
  return segment.kind === "line"
    ? lineCrossing(segment.from, segment.to, point)
    : arcCrossings(segment, point);
}

function lineCrossing(from: Point, to: Point, point: Point): number {
  if (from.y <= point.y === to.y <= point.y) return 0;
  const x = from.x + ((point.y - from.y) / (to.y - from.y)) * (to.x - from.x);
  return x > point.x ? 1 : 0;
}

/** An arc is cut at its highest and lowest points into pieces that only rise or fall. */
function arcCrossings(piece: ArcSegment, point: Point): number {
  const { center, radius, from, to, startAngle, sweep } = piece;
  const reach = radius + TOLERANCE;
  if (Math.abs(point.y - center.y) > reach || point.x > center.x + reach) return 0;
  const way = Math.sign(sweep);
  let crossings = 0;
  let y = from.y;
  let travelled = 0;
  while (travelled < Math.abs(sweep)) {
    const angle = startAngle + way * travelled;
    const quarter = nextPole(angle, way);
    const step = Math.abs(quarter - angle);
    const last = travelled + step >= Math.abs(sweep);
    const onRight = Math.cos(angle + (way * (last ? Math.abs(sweep) - travelled : step)) / 2) > 0;
    const nextY = last ? to.y : center.y + radius * Math.round(Math.sin(quarter));
    crossings += risingPieceCrossing(center, radius, onRight, y, nextY, point);
    y = nextY;
    travelled += step;
  }
  return crossings;
}

/** The next direction straight up or down, strictly beyond `angle`, in the direction of travel. */
function nextPole(angle: number, way: number): number {
  const turns = (angle - Math.PI / 2) / Math.PI;
  const next = way > 0 ? Math.floor(turns + 1e-12) + 1 : Math.ceil(turns - 1e-12) - 1;
  return Math.PI / 2 + next * Math.PI;
}

function risingPieceCrossing(
  center: Point,
  radius: number,
  onRight: boolean,
  y0: number,
  y1: number,
  point: Point,
): number {
  if (y0 <= point.y === y1 <= point.y) return 0;
  const inside = distanceBetween(center, point) < radius;
  if (onRight) return inside || point.x < center.x ? 1 : 0;
  return !inside && point.x < center.x ? 1 : 0;
}
