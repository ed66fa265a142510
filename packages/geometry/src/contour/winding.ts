import type { Arrangement } from "./arrangement.js";
import type { Point } from "./contour.js";
import { intervalIndex } from "./interval-index.js";
import { pointAt, type Segment } from "./segment.js";
import { distanceBetween, turn } from "./vector.js";

/** How often set 0 and set 1 of an arrangement wind around the points just left and just right of an edge. */
export interface EdgeWinding {
  readonly left: readonly [number, number];
  readonly right: readonly [number, number];
}

/**
 * The windings on both sides of every edge, by a ray towards +x from its middle. All other edges are counted by the half-open rule
 * at the nodes, which is exact because edges share their nodes; the edge itself adds its own counts to one side.
 */
export function edgeWindings(arrangement: Arrangement): EdgeWinding[] {
  const { edges } = arrangement;
  const atHeight = intervalIndex(
    edges.map(({ segment: { from, to } }) => ({ min: Math.min(from.y, to.y), max: Math.max(from.y, to.y) })),
  );
  return edges.map((edge) => {
    const at = middleOf(edge.segment);
    let [restA, restB] = [0, 0];
    for (const index of atHeight(at.y)) {
      const other = edges[index];
      if (other === undefined || other === edge) continue;
      const way = crossing(other.segment, at);
      restA += way * other.counts[0];
      restB += way * other.counts[1];
    }
    return besides(edge.segment, edge.counts, at, [restA, restB]);
  });
}

/** The middle, kept between the end nodes: there alone do the levels of the ends decide what the ray crosses. */
function middleOf(segment: Segment): Point {
  const { from, to } = segment;
  const { x, y } = pointAt(segment, 0.5);
  return { x: clamped(x, from.x, to.x), y: clamped(y, from.y, to.y) };
}

function clamped(value: number, a: number, b: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), value));
}

/** +1 when the edge rises across the ray from `at` towards +x, -1 when it falls, else 0. */
function crossing(edge: Segment, at: Point): number {
  const { from, to } = edge;
  const starts = from.y <= at.y;
  if (starts === to.y <= at.y || !isAhead(edge, at)) return 0;
  return starts ? 1 : -1;
}

/**
 * Whether an edge that crosses the level of a point does so beyond it. Its end points bound an edge; only a point between them
 * is compared with the line or circle, which the ends may miss by the tolerance.
 */
function isAhead(edge: Segment, at: Point): boolean {
  const { from, to } = edge;
  if (at.x < Math.min(from.x, to.x)) return true;
  if (at.x >= Math.max(from.x, to.x)) return false;
  if (edge.kind === "line") return from.y <= at.y === turn(from, to, at) > 0;
  const isInside = distanceBetween(edge.center, at) < edge.radius;
  const isRightHalf = Math.cos(edge.startAngle + edge.sweep / 2) > 0;
  return isRightHalf ? isInside : !isInside;
}

/**
 * The ray counts the level just above `at`. An edge that crosses this level lies across the ray from its west side only;
 * one that does not (it is level) lies just below.
 */
function besides(
  { from, to }: Segment,
  [a, b]: readonly [number, number],
  at: Point,
  rest: readonly [number, number],
): EdgeWinding {
  const starts = from.y <= at.y;
  const isCrossed = starts !== to.y <= at.y;
  const restIsLeft = isCrossed ? !starts : to.x > from.x;
  return restIsLeft
    ? { left: rest, right: [rest[0] - a, rest[1] - b] }
    : { left: [rest[0] + a, rest[1] + b], right: rest };
}
