import type { Point } from "@keelcut/geometry";
import type { Ring } from "./nofit/polygon.js";

/**
 * Fewer corners, never less material: every step only adds a thin triangle on the right of the ring, and no point of
 * the new boundary lies further than `error` from the old one, mm.
 *
 * Two kinds of step: a corner that turns right is bridged; an edge between two left turns is replaced by the meeting
 * point of its neighbours' lines. Errors add up along the way and are kept per edge. Because each step adds a
 * triangle with positive winding, "winding number above zero" stays a superset of the old material even where a
 * step makes the ring cross itself.
 */
export function simplifyOutward(ring: Ring, error: number): Ring {
  const edges: Edge[] = [];
  for (let i = 0; i < ring.length; i += 2) {
    edges.push({ from: { x: ring[i], y: ring[i + 1] }, error: 0 });
  }
  // Cheap steps first: small bumps go before they can spoil a larger saving.
  for (const share of [0.05, 0.2, 0.5, 1]) {
    let index = 0;
    let untouched = 0;
    while (edges.length > 3 && untouched < edges.length) {
      const done = bridge(edges, index, error * share) || extend(edges, index, error * share);
      untouched = done ? 0 : untouched + 1;
      index = (index + (done ? 0 : 1)) % edges.length;
    }
  }
  return Float64Array.from(edges.flatMap((edge) => [edge.from.x, edge.from.y]));
}

/** An edge runs from its corner to the next edge's; `error` is its distance from the ring given, at most. */
interface Edge {
  readonly from: Point;
  readonly error: number;
}

/** Drops the corner at the end of an edge when the ring turns right there (or not at all). */
function bridge(edges: Edge[], index: number, budget: number): boolean {
  const next = (index + 1) % edges.length;
  const [first, second, third] = [at(edges, index), at(edges, next), at(edges, index + 2)];
  const turn = cross(first.from, second.from, third.from);
  if (turn > 0) return false;
  const length = distance(first.from, third.from);
  const height = length > 0 ? -turn / length : distance(first.from, second.from);
  const total = height + Math.max(first.error, second.error);
  // Where the foot of the height is outside the bridge the ring doubles back: leave such spikes alone.
  if (total > budget || !between(first.from, second.from, third.from)) return false;
  edges[index] = { from: first.from, error: total };
  edges.splice(next, 1);
  return true;
}

/** Drops an edge with left turns at both ends by extending its neighbours until they meet. */
function extend(edges: Edge[], index: number, budget: number): boolean {
  const size = edges.length;
  const [before, edge, after, end] = [
    at(edges, index + size - 1),
    at(edges, index),
    at(edges, index + 1),
    at(edges, index + 2),
  ];
  if (cross(before.from, edge.from, after.from) <= 0 || cross(edge.from, after.from, end.from) <= 0) {
    return false;
  }
  const ux = edge.from.x - before.from.x;
  const uy = edge.from.y - before.from.y;
  const vx = after.from.x - end.from.x;
  const vy = after.from.y - end.from.y;
  const determinant = ux * vy - uy * vx;
  // The neighbours' lines meet outside the edge only while the two turns stay below half a turn together.
  if (determinant >= 0) return false;
  const wx = after.from.x - edge.from.x;
  const wy = after.from.y - edge.from.y;
  const share = (wx * vy - wy * vx) / determinant;
  if (!(share >= 0)) return false;
  const meet = { x: edge.from.x + share * ux, y: edge.from.y + share * uy };
  const height = Math.abs(cross(edge.from, after.from, meet)) / Math.hypot(wx, wy);
  const total = height + edge.error;
  // The tip's distance from the old edge is its height only above the edge, so measure to the corners too.
  if (total > budget || !between(edge.from, meet, after.from)) return false;
  const previous = (index + size - 1) % size;
  const next = (index + 1) % size;
  edges[previous] = { from: before.from, error: Math.max(before.error, total) };
  edges[next] = { from: meet, error: Math.max(after.error, total) };
  edges.splice(index, 1);
  return true;
}

function at(edges: readonly Edge[], index: number): Edge {
  return edges[index % edges.length];
}

function cross(a: Point, b: Point, c: Point): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

function distance(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}

/** True when `point` projects onto the stretch from a to b. */
function between(a: Point, point: Point, b: Point): boolean {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const along = (point.x - a.x) * dx + (point.y - a.y) * dy;
  return along >= 0 && along <= dx * dx + dy * dy;
}
