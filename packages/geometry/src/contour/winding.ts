import type { Arrangement, Edge } from "./arrangement.js";
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
    const at = pointAt(edge.segment, 0.5);
    let [restA, restB] = [0, 0];
    for (const index of atHeight(at.y)) {
      const other = edges[index];
      if (other === undefined || other === edge) continue;
      const way = crossing(other.segment, at);
      restA += way * other.counts[0];
      restB += way * other.counts[1];
    }
    return besides(edge, at, [restA, restB]);
  });
}

/** +1 when the edge rises across the ray from `at` towards +x, -1 when it falls, else 0. The edge must not turn back in y. */
function crossing(edge: Segment, at: Point): number {
  const { from, to } = edge;
  const starts = from.y <= at.y;
  if (starts === to.y <= at.y) return 0;
  const isAhead = edge.kind === "line" ? starts === turn(from, to, at) > 0 : isArcAhead(edge, at);
  if (!isAhead) return 0;
  return starts ? 1 : -1;
}

function isArcAhead(edge: Segment & { kind: "arc" }, at: Point): boolean {
  const { center, radius, startAngle, sweep } = edge;
  const isInside = distanceBetween(center, at) < radius;
  const isRightHalf = Math.cos(startAngle + sweep / 2) > 0;
  return isRightHalf ? isInside || at.x < center.x : !isInside && at.x < center.x;
}

/**
 * The ray counts the level just above `at`. An edge that crosses this level lies across the ray from its west side only;
 * one that does not (it is level) lies just below.
 */
function besides(edge: Edge, at: Point, rest: readonly [number, number]): EdgeWinding {
  const { from, to } = edge.segment;
  const starts = from.y <= at.y;
  const isCrossed = starts !== to.y <= at.y;
  const restIsLeft = isCrossed ? !starts : to.x > from.x;
  const [a, b] = edge.counts;
  return restIsLeft
    ? { left: rest, right: [rest[0] - a, rest[1] - b] }
    : { left: [rest[0] + a, rest[1] + b], right: rest };
}
