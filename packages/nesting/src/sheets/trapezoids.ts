import type { Ring } from "../nofit/polygon.js";

/**
 * A set of points as trapezoids between two upright lines, sorted by their left side: six numbers each,
 * `[left, right, low, lowSlope, high, highSlope]`, where low and high are the heights at the left side.
 */
export type Trapezoids = Float64Array;

export const STRIDE = 6;

/** Narrower slabs than this are dropped, mm: they come from upright edges that rounding has tilted. */
const SLAB = 1e-9;

/**
 * Upright decomposition of the points that the rings wind around more than zero times (outer rings run
 * counter-clockwise, openings clockwise). Rings may cross one another only in corners of both: `crossingsSplit`
 * sees to that. Trapezoids between the same two edges are merged, so a convex polygon of n corners gives at most n - 1.
 *
 * Cost: corners times edges over a corner.
 */
export function trapezoids(rings: readonly Ring[]): Trapezoids {
  const edges = leaningEdges(rings);
  const lines = cornerLines(edges);
  const found: Trapezoid[] = [];
  let open = new Map<Edge, Trapezoid>();
  let first = 0;
  let active: Edge[] = [];
  for (let index = 0; index + 1 < lines.length; index++) {
    const left = lines[index];
    const right = lines[index + 1];
    const middle = (left + right) / 2;
    active = active.filter((edge) => edge.right > middle);
    for (; first < edges.length && edges[first].left < middle; first++) {
      const edge = edges[first];
      if (edge.right > middle) active.push(edge);
    }
    active.sort((a, b) => heightAt(a, middle) - heightAt(b, middle) || a.winding - b.winding);
    const next = new Map<Edge, Trapezoid>();
    for (const [low, high] of spans(active)) {
      let piece = open.get(low);
      if (piece?.high === high) piece.right = right;
      else {
        piece = { left, right, low, high };
        found.push(piece);
      }
      next.set(low, piece);
    }
    open = next;
  }
  return packed(found);
}

/** Rings with a corner wherever two of their edges cross, so that they meet in corners only. Cost: edges squared. */
export function crossingsSplit(rings: readonly Ring[]): Ring[] {
  const edges = rings.flatMap((ring, number) => ringEdges(ring, number));
  const cuts = new Map<RingEdge, number[]>();
  for (const [index, a] of edges.entries()) {
    for (let other = index + 1; other < edges.length; other++) {
      const b = edges[other];
      const met = meeting(a, b);
      if (met === undefined) continue;
      cuts.set(a, [...(cuts.get(a) ?? []), met[0]]);
      cuts.set(b, [...(cuts.get(b) ?? []), met[1]]);
    }
  }
  if (cuts.size === 0) return [...rings];
  return rings.map((_, number) => {
    const corners: number[] = [];
    for (const edge of edges) {
      if (edge.ring !== number) continue;
      corners.push(edge.x0, edge.y0);
      for (const share of (cuts.get(edge) ?? []).sort((s, t) => s - t)) {
        corners.push(edge.x0 + share * (edge.x1 - edge.x0), edge.y0 + share * (edge.y1 - edge.y0));
      }
    }
    return Float64Array.from(corners);
  });
}

interface Edge {
  readonly left: number;
  readonly right: number;
  /** Height at the left end. */
  readonly y: number;
  readonly slope: number;
  /** +1 when the material is above the edge, -1 when below. */
  readonly winding: number;
}

interface Trapezoid {
  readonly left: number;
  right: number;
  readonly low: Edge;
  readonly high: Edge;
}

interface RingEdge {
  readonly ring: number;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Edges that are not upright, by their left end. */
function leaningEdges(rings: readonly Ring[]): Edge[] {
  const edges: Edge[] = [];
  for (const ring of rings) {
    for (const { x0, y0, x1, y1 } of ringEdges(ring, 0)) {
      if (Math.abs(x1 - x0) <= SLAB) continue;
      const slope = (y1 - y0) / (x1 - x0);
      edges.push(
        x1 > x0
          ? { left: x0, right: x1, y: y0, slope, winding: 1 }
          : { left: x1, right: x0, y: y1, slope, winding: -1 },
      );
    }
  }
  return edges.sort((a, b) => a.left - b.left);
}

function cornerLines(edges: readonly Edge[]): number[] {
  const all = Float64Array.from(edges.flatMap((edge) => [edge.left, edge.right])).sort();
  const lines: number[] = [];
  for (const x of all) {
    const last = lines.at(-1);
    if (last === undefined || x - last > SLAB) lines.push(x);
  }
  return lines;
}

function heightAt(edge: Edge, x: number): number {
  return edge.y + edge.slope * (x - edge.left);
}

/** From bottom to top: where the winding number leaves zero and where it comes back. */
function* spans(active: readonly Edge[]): Generator<[Edge, Edge]> {
  let winding = 0;
  let low: Edge | undefined;
  for (const edge of active) {
    const before = winding;
    winding += edge.winding;
    if (before <= 0 && winding > 0) low = edge;
    else if (before > 0 && winding <= 0 && low) yield [low, edge];
  }
}

function packed(found: readonly Trapezoid[]): Trapezoids {
  const pieces = new Float64Array(found.length * STRIDE);
  found.forEach(({ left, right, low, high }, index) => {
    pieces.set(
      [left, right, heightAt(low, left), low.slope, heightAt(high, left), high.slope],
      index * STRIDE,
    );
  });
  return pieces;
}

function ringEdges(ring: Ring, number: number): RingEdge[] {
  const edges: RingEdge[] = [];
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    edges.push({
      ring: number,
      x0: ring[i],
      y0: ring[i + 1],
      x1: ring[j],
      y1: ring[j + 1],
    });
  }
  return edges;
}

/** Where two edges cross strictly inside both, as shares along each. */
function meeting(a: RingEdge, b: RingEdge): [number, number] | undefined {
  if (Math.max(a.x0, a.x1) < Math.min(b.x0, b.x1) || Math.max(b.x0, b.x1) < Math.min(a.x0, a.x1))
    return undefined;
  if (Math.max(a.y0, a.y1) < Math.min(b.y0, b.y1) || Math.max(b.y0, b.y1) < Math.min(a.y0, a.y1))
    return undefined;
  const ux = a.x1 - a.x0;
  const uy = a.y1 - a.y0;
  const vx = b.x1 - b.x0;
  const vy = b.y1 - b.y0;
  const determinant = ux * vy - uy * vx;
  if (determinant === 0) return undefined;
  const wx = b.x0 - a.x0;
  const wy = b.y0 - a.y0;
  const s = (wx * vy - wy * vx) / determinant;
  const t = (wx * uy - wy * ux) / determinant;
  const inside = (share: number): boolean => share > 1e-12 && share < 1 - 1e-12;
  return inside(s) && inside(t) ? [s, t] : undefined;
}
