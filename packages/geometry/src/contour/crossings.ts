import type { Point } from "./contour.js";
import { type ArcSegment, arcParameter, type LineSegment, type Segment } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { turn } from "./vector.js";

/** Carriers that cross no deeper than this (mm) are tangent: rounding alone may make them cross or miss. */
export const TANGENT: number = TOLERANCE / 1000;

/** The points two segments have in common where their carriers cross; ends included, tangent carriers not. */
export function crossings(a: Segment, b: Segment): Point[] {
  if (a.kind === "line") {
    return b.kind === "line" ? lineCrossings(a, b) : onBoth(lineCircleCrossings(a, b), a, b);
  }
  return b.kind === "line" ? onBoth(lineCircleCrossings(b, a), b, a) : onBoth(circleCrossings(a, b), a, b);
}

/** The point where an arc is tangent to a line or another arc, or misses it by less than the tolerance. */
export function touchings(a: Segment, b: Segment): Point[] {
  if (a.kind === "line") return b.kind === "line" ? [] : onBoth(lineTouching(a, b), a, b);
  return b.kind === "line" ? onBoth(lineTouching(b, a), b, a) : onBoth(circleTouching(a, b), a, b);
}

function isTouch(depth: number): boolean {
  return depth <= TANGENT && depth >= -TOLERANCE;
}

function onBoth(points: readonly Point[], a: Segment, b: Segment): Point[] {
  return points.filter((point) => isAlong(a, point) && isAlong(b, point));
}

function isAlong(segment: Segment, point: Point): boolean {
  if (segment.kind === "arc") {
    return (
      arcParameter(segment, Math.atan2(point.y - segment.center.y, point.x - segment.center.x)) !== undefined
    );
  }
  const { from, to } = segment;
  const along = (point.x - from.x) * (to.x - from.x) + (point.y - from.y) * (to.y - from.y);
  return along >= 0 && along <= (to.x - from.x) ** 2 + (to.y - from.y) ** 2;
}

/**
 * Lines so nearly parallel that one strays less than rounding from the other touch along a stretch, whose ends are
 * ends of the lines. The crossing is computed on one line and checked on the other: on lines parallel up to rounding it may be anywhere.
 */
function lineCrossings(a: LineSegment, b: LineSegment): Point[] {
  const ax = a.to.x - a.from.x;
  const ay = a.to.y - a.from.y;
  const bx = b.to.x - b.from.x;
  const by = b.to.y - b.from.y;
  const cross = ax * by - ay * bx;
  if (Math.abs(cross) <= TANGENT * Math.max(Math.hypot(ax, ay), Math.hypot(bx, by))) return [];
  const apartX = b.from.x - a.from.x;
  const apartY = b.from.y - a.from.y;
  const onA = (apartX * by - apartY * bx) / cross;
  if (!(onA >= 0 && onA <= 1)) return [];
  const point = { x: a.from.x + ax * onA, y: a.from.y + ay * onA };
  const stray = Math.abs(turn(b.from, b.to, point)) / Math.hypot(bx, by);
  return isAlong(b, point) && stray <= TOLERANCE / 10 ? [point] : [];
}

interface Foot {
  readonly point: Point;
  /** Distance from the circle's centre to the carrier line. */
  readonly away: number;
  readonly ux: number;
  readonly uy: number;
}

/** The foot of the perpendicular from an arc's centre to the carrier of a line. */
function footOf(line: LineSegment, circle: ArcSegment): Foot {
  const length = Math.hypot(line.to.x - line.from.x, line.to.y - line.from.y);
  const ux = (line.to.x - line.from.x) / length;
  const uy = (line.to.y - line.from.y) / length;
  const along = (circle.center.x - line.from.x) * ux + (circle.center.y - line.from.y) * uy;
  const point = { x: line.from.x + ux * along, y: line.from.y + uy * along };
  return { point, away: Math.hypot(circle.center.x - point.x, circle.center.y - point.y), ux, uy };
}

function lineCircleCrossings(line: LineSegment, circle: ArcSegment): Point[] {
  const { point, away, ux, uy } = footOf(line, circle);
  const square = (circle.radius - away) * (circle.radius + away);
  if (!(circle.radius - away > TANGENT)) return [];
  const half = Math.sqrt(square);
  return [
    { x: point.x - ux * half, y: point.y - uy * half },
    { x: point.x + ux * half, y: point.y + uy * half },
  ];
}

function lineTouching(line: LineSegment, circle: ArcSegment): Point[] {
  const { point, away } = footOf(line, circle);
  return isTouch(circle.radius - away) ? [point] : [];
}

/** Measured from the centre of the smaller circle: from that of a nearly straight arc the decimals would be lost. */
function circleCrossings(a: ArcSegment, b: ArcSegment): Point[] {
  const [small, large] = a.radius <= b.radius ? [a, b] : [b, a];
  const dx = large.center.x - small.center.x;
  const dy = large.center.y - small.center.y;
  const apart = Math.hypot(dx, dy);
  if (isOneCircle(a, b, apart)) return [];
  if (!(a.radius + b.radius - apart > TANGENT && apart - (large.radius - small.radius) > TANGENT)) return [];
  const along = ((apart - large.radius) * (apart + large.radius) + small.radius * small.radius) / (2 * apart);
  const half = Math.sqrt(Math.max(0, (small.radius - along) * (small.radius + along)));
  const x = small.center.x + (dx / apart) * along;
  const y = small.center.y + (dy / apart) * along;
  return [
    { x: x - (dy / apart) * half, y: y + (dx / apart) * half },
    { x: x + (dy / apart) * half, y: y - (dx / apart) * half },
  ];
}

function circleTouching(a: ArcSegment, b: ArcSegment): Point[] {
  const apart = Math.hypot(b.center.x - a.center.x, b.center.y - a.center.y);
  if (isTouch(a.radius + b.radius - apart)) return [towards(a, b, apart)];
  if (isOneCircle(a, b, apart)) return [];
  const [larger, smaller] = a.radius >= b.radius ? [a, b] : [b, a];
  return isTouch(apart - (larger.radius - smaller.radius)) ? [towards(larger, smaller, apart)] : [];
}

/** Arcs on one circle touch along a stretch, whose ends are ends of the arcs. */
function isOneCircle(a: ArcSegment, b: ArcSegment, apart: number): boolean {
  return apart + Math.abs(a.radius - b.radius) <= TOLERANCE;
}

/** The point of circle `a` in the direction of the centre of `b`. */
function towards(a: ArcSegment, b: ArcSegment, apart: number): Point {
  return {
    x: a.center.x + ((b.center.x - a.center.x) / apart) * a.radius,
    y: a.center.y + ((b.center.y - a.center.y) / apart) * a.radius,
  };
}
