import type { Arrangement, Edge } from "./arrangement.js";
import { bearing } from "./bearing.js";
import type { Point } from "./contour.js";
import { contracted } from "./contract.js";
import { segmentLength } from "./segment.js";
import { distanceBetween, positiveAngle } from "./vector.js";

/**
 * Joins edges that have material on their left into closed loops that pass no node twice.
 *
 * Where several loops meet at a node, each edge goes on with the first edge clockwise from where it came: so a loop stays
 * on the boundary of one connected piece of material. A loop that returns to a node is cut there in two, so material that
 * touches itself at a point becomes an outer contour and an opening that touch.
 *
 * Throws an Error naming the place when edges longer than rounding can explain are left over.
 */
export function traceLoops(arrangement: Arrangement, edges: readonly Edge[]): Edge[][] {
  const { nodes } = arrangement;
  const chosen = isBalanced(edges) ? edges : contracted(arrangement, edges);
  const sound = withoutDanglers(nodes, chosen);
  const next = successors(nodes, sound);
  const used = new Set<Edge>();
  const loops: Edge[][] = [];
  for (const first of sound) {
    if (used.has(first)) continue;
    const loop: Edge[] = [];
    for (let edge: Edge | undefined = first; edge !== undefined && !used.has(edge); edge = next.get(edge)) {
      used.add(edge);
      loop.push(edge);
    }
    loops.push(...simpleLoops(nodes, loop));
  }
  return loops;
}

/** Whether as many edges leave each node as arrive. */
function isBalanced(edges: readonly Edge[]): boolean {
  const balance = new Map<number, number>();
  for (const { from, to } of edges) {
    balance.set(from, (balance.get(from) ?? 0) + 1);
    balance.set(to, (balance.get(to) ?? 0) - 1);
  }
  return [...balance.values()].every((count) => count === 0);
}

/** Edges left over at shallow crossings are shorter than this, mm; anything longer means a wrong decision. */
const LONGEST_DANGLER = 1e-2;

/** Rounding at shallow crossings leaves short edges that lead nowhere: they are taken off from their loose ends. */
function withoutDanglers(nodes: readonly Point[], edges: readonly Edge[]): Edge[] {
  let kept = [...edges];
  for (;;) {
    const starts = tally(kept.map((edge) => edge.from));
    const ends = tally(kept.map((edge) => edge.to));
    const loose = kept.filter((edge) => !starts.has(edge.to) || !ends.has(edge.from));
    if (loose.length === 0) return kept;
    refuseLong(nodes, loose);
    const off = new Set(loose);
    kept = kept.filter((edge) => !off.has(edge));
  }
}

function refuseLong(nodes: readonly Point[], leftOver: readonly Edge[]): void {
  const long = leftOver.find((edge) => segmentLength(edge.segment) > LONGEST_DANGLER);
  if (long === undefined) return;
  const at = nodes[long.from];
  throw new Error(`the boundary does not close near (${at?.x.toFixed(4)}, ${at?.y.toFixed(4)})`);
}

function tally(ids: readonly number[]): ReadonlySet<number> {
  return new Set(ids);
}

/** For each edge the one that follows it. */
function successors(nodes: readonly Point[], edges: readonly Edge[]): Map<Edge, Edge> {
  const leaving = grouped(edges, (edge) => edge.from);
  const arriving = grouped(edges, (edge) => edge.to);
  const next = new Map<Edge, Edge>();
  for (const [node, incoming] of arriving) {
    const outgoing = leaving.get(node) ?? [];
    const [onlyIn, onlyOut] = [incoming[0], outgoing[0]];
    if (incoming.length === 1 && outgoing.length === 1 && onlyIn !== undefined && onlyOut !== undefined) {
      next.set(onlyIn, onlyOut);
      continue;
    }
    const at = nodes[node];
    if (at !== undefined) matchAround(at, incoming, outgoing, next);
  }
  return next;
}

function grouped(edges: readonly Edge[], key: (edge: Edge) => number): Map<number, Edge[]> {
  const groups = new Map<number, Edge[]>();
  for (const edge of edges) {
    const group = groups.get(key(edge));
    if (group === undefined) groups.set(key(edge), [edge]);
    else group.push(edge);
  }
  return groups;
}

/**
 * Directions are taken on a small circle around the node rather than from tangents: so arcs and lines that leave it
 * in the same direction are told apart by their curvature.
 */
function matchAround(
  at: Point,
  incoming: readonly Edge[],
  outgoing: readonly Edge[],
  next: Map<Edge, Edge>,
): void {
  const reach =
    Math.min(
      ...[...incoming, ...outgoing].map((edge) => distanceBetween(edge.segment.from, edge.segment.to)),
    ) / 2;
  const free = new Set(outgoing);
  const backs = incoming.map((edge) => ({ edge, angle: bearing(edge.segment, at, reach, false) }));
  const ways = outgoing.map((edge) => ({ edge, angle: bearing(edge.segment, at, reach, true) }));
  const choices = backs.flatMap((back) =>
    ways.map((way) => ({ from: back.edge, to: way.edge, clockwise: positiveAngle(back.angle - way.angle) })),
  );
  choices.sort((p, q) => p.clockwise - q.clockwise);
  for (const { from, to } of choices) {
    if (next.has(from) || !free.has(to)) continue;
    next.set(from, to);
    free.delete(to);
  }
}

/** Cuts a loop wherever it passes a node a second time. */
function simpleLoops(nodes: readonly Point[], loop: readonly Edge[]): Edge[][] {
  const loops: Edge[][] = [];
  const path: Edge[] = [];
  const positions = new Map<number, number>();
  for (const edge of loop) {
    positions.set(edge.from, path.length);
    path.push(edge);
    const start = positions.get(edge.to);
    if (start === undefined) continue;
    const closed = path.splice(start);
    for (const part of closed) positions.delete(part.from);
    loops.push(closed);
  }
  refuseLong(nodes, path);
  return loops;
}
