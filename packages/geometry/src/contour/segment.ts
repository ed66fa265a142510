import { rememberedFor } from "../remember.js";
import type { Contour, Path, Point, Vertex } from "./contour.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween, polar, positiveAngle } from "./vector.js";

/** A straight piece of a contour. */
export interface LineSegment {
  readonly kind: "line";
  readonly from: Point;
  readonly to: Point;
}

/** A circular piece of a contour; angles in radians, `sweep` positive when it runs counter-clockwise. */
export interface ArcSegment {
  readonly kind: "arc";
  readonly from: Point;
  readonly to: Point;
  readonly center: Point;
  readonly radius: number;
  readonly startAngle: number;
  readonly sweep: number;
}

export type Segment = LineSegment | ArcSegment;

/** The pieces of a closed contour in order: one per vertex, the last leads back to the first vertex. */
export const segments: (contour: Contour) => readonly Segment[] = rememberedFor((contour: Contour) =>
  contour.map((vertex, index) => segmentBetween(vertex, contour[(index + 1) % contour.length] ?? vertex)),
);

/** The pieces of a path: as a contour when closed, one fewer than vertices when open. */
export function pathSegments(path: Path): readonly Segment[] {
  if (path.closed) return segments(path.vertices);
  return path.vertices
    .slice(0, -1)
    .map((vertex, index) => segmentBetween(vertex, path.vertices[index + 1] ?? vertex));
}

/** Below this height over its chord (mm) an arc is a line. */
const FLAT = TOLERANCE / 1000;

/**
 * Above this radius (mm) an arc is a line: doubles near a centre so far away are a seventeenth of the tolerance apart, and
 * what is measured from it loses the decimals the tolerance needs. Over a chord of 1 m such an arc is 0.00025 mm high: more
 * than the tolerance, and less than anything that is cut.
 */
const LARGEST_RADIUS = 5e8;

/** Whether the piece that leaves `from` with its bulge is a straight line: its bulge is none, or rounding. */
export function isStraight(from: Vertex, to: Point): boolean {
  const chord = distanceBetween(from, to);
  const flat = Math.abs(from.bulge);
  return flat * chord < 2 * FLAT || chord * (1 + flat * flat) > 4 * LARGEST_RADIUS * flat;
}

/** The piece that leaves `from` with its bulge and arrives at `to`. */
export function segmentBetween(from: Vertex, to: Point): Segment {
  const chordX = to.x - from.x;
  const chordY = to.y - from.y;
  const chord = Math.hypot(chordX, chordY);
  const bulge = from.bulge;
  if (isStraight(from, to)) {
    return { kind: "line", from: { x: from.x, y: from.y }, to: { x: to.x, y: to.y } };
  }
  const height = (1 - bulge * bulge) / (4 * bulge);
  const center = {
    x: (from.x + to.x) / 2 - chordY * height,
    y: (from.y + to.y) / 2 + chordX * height,
  };
  return {
    kind: "arc",
    from: { x: from.x, y: from.y },
    to: { x: to.x, y: to.y },
    center,
    radius: (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge)),
    startAngle: Math.atan2(from.y - center.y, from.x - center.x),
    sweep: 4 * Math.atan(bulge),
  };
}

export function line(from: Point, to: Point): LineSegment {
  return { kind: "line", from, to };
}

/** An arc from its circle; its end points are computed. */
export function arc(center: Point, radius: number, startAngle: number, sweep: number): ArcSegment {
  const from = polar(center, radius, startAngle);
  const to = polar(center, radius, startAngle + sweep);
  return { kind: "arc", from, to, center, radius, startAngle, sweep };
}

/** The bulge a vertex needs so that this segment leaves it. */
export function bulgeOf(segment: Segment): number {
  return segment.kind === "line" ? 0 : Math.tan(segment.sweep / 4);
}

export function segmentLength(segment: Segment): number {
  return segment.kind === "line"
    ? distanceBetween(segment.from, segment.to)
    : segment.radius * Math.abs(segment.sweep);
}

/** The point at parameter t: 0 at `from`, 1 at `to`, in between in proportion to the length. */
export function pointAt(segment: Segment, t: number): Point {
  if (t <= 0) return segment.from;
  if (t >= 1) return segment.to;
  if (segment.kind === "arc") {
    return polar(segment.center, segment.radius, segment.startAngle + segment.sweep * t);
  }
  const { from, to } = segment;
  return { x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t };
}

/** The direction of travel at parameter t, a unit vector. */
export function tangentAt(segment: Segment, t: number): Point {
  if (segment.kind === "line") {
    const length = distanceBetween(segment.from, segment.to);
    return { x: (segment.to.x - segment.from.x) / length, y: (segment.to.y - segment.from.y) / length };
  }
  const angle = segment.startAngle + segment.sweep * t;
  const way = Math.sign(segment.sweep);
  return { x: -Math.sin(angle) * way, y: Math.cos(angle) * way };
}

export function reversedSegment(segment: Segment): Segment {
  if (segment.kind === "line") return { kind: "line", from: segment.to, to: segment.from };
  return {
    ...segment,
    from: segment.to,
    to: segment.from,
    startAngle: segment.startAngle + segment.sweep,
    sweep: -segment.sweep,
  };
}

/** The part of a segment between two parameters, `start` < `end`. */
export function subSegment(segment: Segment, start: number, end: number): Segment {
  const from = pointAt(segment, start);
  const to = pointAt(segment, end);
  if (segment.kind === "line") return { kind: "line", from, to };
  return {
    ...segment,
    from,
    to,
    startAngle: segment.startAngle + segment.sweep * start,
    sweep: segment.sweep * (end - start),
  };
}

/** The parameter (0..1) of a point known to lie on the segment, within the tolerance. */
export function parameterOf(segment: Segment, point: Point): number {
  const { from, to } = segment;
  if (segment.kind === "line") {
    const dx = to.x - from.x;
    const dy = to.y - from.y;
    const square = dx * dx + dy * dy;
    const t = square === 0 ? 0 : ((point.x - from.x) * dx + (point.y - from.y) * dy) / square;
    return Math.max(0, Math.min(1, t));
  }
  const angle = Math.atan2(point.y - segment.center.y, point.x - segment.center.x);
  return arcParameter(segment, angle) ?? (distanceBetween(point, from) <= distanceBetween(point, to) ? 0 : 1);
}

/**
 * The parameter at which a circle's ray of direction `angle` meets the arc, 0..1, or undefined when it misses it.
 * `slack` (mm along the arc) widens the arc at both ends.
 */
export function arcParameter(piece: ArcSegment, angle: number, slack = 0): number | undefined {
  const sweep = Math.abs(piece.sweep);
  const travelled = positiveAngle(piece.sweep > 0 ? angle - piece.startAngle : piece.startAngle - angle);
  if (travelled <= sweep) return travelled / sweep;
  const slackAngle = slack / piece.radius;
  if (travelled - sweep <= slackAngle) return 1;
  if (2 * Math.PI - travelled <= slackAngle) return 0;
  return undefined;
}

/** The circle a contour is, when it is one true circle drawn as arcs (for writers); undefined when it is not. */
export function asCircle(contour: Contour): Circle | undefined {
  return circleOf(contour).circle;
}

interface Circle {
  readonly center: Point;
  readonly radius: number;
}

const circleOf = rememberedFor((contour: Contour) => ({ circle: circleThrough(contour) }));

function circleThrough(contour: Contour): Circle | undefined {
  const first = contour.length < 2 ? undefined : segments(contour)[0];
  if (first?.kind !== "arc") return undefined;
  let sweep = 0;
  for (const piece of segments(contour)) {
    if (piece.kind !== "arc" || Math.sign(piece.sweep) !== Math.sign(first.sweep)) return undefined;
    if (distanceBetween(piece.center, first.center) > TOLERANCE) return undefined;
    if (Math.abs(piece.radius - first.radius) > TOLERANCE) return undefined;
    sweep += piece.sweep;
  }
  if (Math.abs(Math.abs(sweep) - 2 * Math.PI) * first.radius > TOLERANCE) return undefined;
  return { center: first.center, radius: first.radius };
}
