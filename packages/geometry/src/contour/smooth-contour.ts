import { arcVertices } from "./arc-vertices.js";
import type { Arrangement, Edge } from "./arrangement.js";
import type { Contour, Vertex } from "./contour.js";
import { bulgeOf, type Segment } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween, turn } from "./vector.js";

/**
 * The contour of a closed loop of edges, without the joints the arrangement cut into it: edges that continue one another
 * on one line or circle become one. The vertices a contour had before stay, so what nothing met comes back as it was.
 */
export function smoothContour(arrangement: Arrangement, loop: readonly Edge[]): Contour {
  const start = loop.findIndex((edge, index) => !continues(arrangement, loop.at(index - 1), edge));
  if (start < 0) return wholeCircle(loop);
  const runs: Edge[][] = [];
  for (let step = 0; step < loop.length; step++) {
    const edge = loop[(start + step) % loop.length];
    if (edge === undefined) continue;
    const run = runs.at(-1);
    if (run !== undefined && runContinues(arrangement, run, edge)) run.push(edge);
    else runs.push([edge]);
  }
  return runs.flatMap((run) => verticesOf(arrangement, run));
}

/** Joints may be this far off their common line or circle, mm: far above rounding, far below the tolerance. */
const SMOOTH = TOLERANCE / 100;

function continues(arrangement: Arrangement, before: Edge | undefined, edge: Edge): boolean {
  return (
    before !== undefined &&
    !isOwnVertex(arrangement, before, edge) &&
    areAligned(before.segment, edge.segment)
  );
}

function runContinues(arrangement: Arrangement, run: readonly Edge[], edge: Edge): boolean {
  const [first, last] = [run[0], run.at(-1)];
  if (first === undefined || !continues(arrangement, last, edge)) return false;
  if (edge.segment.kind === "arc") return areAligned(first.segment, edge.segment);
  const { from } = first.segment;
  return run.every((part) => isOnChord(from, part.segment.to, edge.segment.to));
}

/** A joint between two different pieces of one contour is a vertex somebody drew. */
function isOwnVertex(arrangement: Arrangement, before: Edge, edge: Edge): boolean {
  if (before.source.piece === edge.source.piece) return false;
  return arrangement.pieces[before.source.piece]?.contour === arrangement.pieces[edge.source.piece]?.contour;
}

function areAligned(a: Segment, b: Segment): boolean {
  if (a.kind === "line") return b.kind === "line" && isOnChord(a.from, a.to, b.to);
  return (
    b.kind === "arc" &&
    Math.sign(a.sweep) === Math.sign(b.sweep) &&
    distanceBetween(a.center, b.center) <= SMOOTH &&
    Math.abs(a.radius - b.radius) <= SMOOTH
  );
}

function isOnChord(from: Segment["from"], middle: Segment["from"], to: Segment["from"]): boolean {
  const length = distanceBetween(from, to);
  const isForward = distanceBetween(from, middle) <= length && distanceBetween(middle, to) <= length;
  return isForward && Math.abs(turn(from, to, middle)) <= SMOOTH * length;
}

/** Only a circle continues itself all the way round: two half arcs from its first node. */
function wholeCircle(loop: readonly Edge[]): Contour {
  const segment = loop[0]?.segment;
  if (segment?.kind !== "arc") return [];
  const bulge = Math.sign(segment.sweep);
  const { center, from } = segment;
  return [
    { x: from.x, y: from.y, bulge },
    { x: 2 * center.x - from.x, y: 2 * center.y - from.y, bulge },
  ];
}

/** The vertices of one line or arc, without its end. A whole piece keeps its own sweep, a longer arc is at most half a circle per vertex. */
function verticesOf(arrangement: Arrangement, run: readonly Edge[]): Vertex[] {
  const [first, last] = [run[0], run.at(-1)];
  if (first === undefined || last === undefined) return [];
  const { segment } = first;
  const start = { x: segment.from.x, y: segment.from.y };
  if (segment.kind === "line") return [{ ...start, bulge: 0 }];
  const whole = wholePiece(arrangement, first, last);
  if (whole !== undefined)
    return [{ ...start, bulge: bulgeOf(whole) * Math.sign(last.source.end - first.source.start) }];
  const sweep = run.reduce((sum, edge) => sum + (edge.segment.kind === "arc" ? edge.segment.sweep : 0), 0);
  const vertices = arcVertices(segment.center, segment.radius, segment.startAngle, sweep).slice(0, -1);
  return vertices.map((vertex, index) => (index === 0 ? { ...start, bulge: vertex.bulge } : vertex));
}

function wholePiece(arrangement: Arrangement, first: Edge, last: Edge): Segment | undefined {
  const { piece, start } = first.source;
  if (piece !== last.source.piece || Math.abs(last.source.end - start) < 1) return undefined;
  return arrangement.pieces[piece]?.segment;
}
