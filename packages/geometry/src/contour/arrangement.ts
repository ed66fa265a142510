import { grownBox, segmentBounds } from "./bounds.js";
import type { Contour, Point } from "./contour.js";
import { segmentIntersections } from "./intersect.js";
import { intervalIndex } from "./interval-index.js";
import { nearestOnSegment } from "./nearest.js";
import { createNodes, type NodeSet } from "./nodes.js";
import { overlappingPairs } from "./overlapping-pairs.js";
import {
  type ArcSegment,
  parameterOf,
  pointAt,
  reversedSegment,
  type Segment,
  segmentLength,
  segments,
  subSegment,
} from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween } from "./vector.js";

/** A directed segment laid into an arrangement. `contour` groups those that follow one another; `set` is 0 or 1 (operand a or b). */
export interface Piece {
  readonly segment: Segment;
  readonly contour: number;
  readonly set: 0 | 1;
}

/** The piece an edge is cut from and the parameters there; start > end when the edge runs against its piece. */
export interface Source {
  readonly piece: number;
  readonly start: number;
  readonly end: number;
}

/** Part of a piece between two nodes, without nodes or extremes in x or y between them. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  /** Runs from node to node; an arc keeps its circle, its ends are moved onto the nodes. */
  readonly segment: Segment;
  readonly source: Source;
  /** The other stretches that coincide with it within the tolerance. */
  readonly doubles: readonly Source[];
  /** How often set 0 and set 1 run along it, less how often they run against it. */
  readonly counts: readonly [number, number];
}

export interface Arrangement {
  readonly pieces: readonly Piece[];
  readonly nodes: readonly Point[];
  readonly edges: readonly Edge[];
}

/**
 * Cuts all pieces wherever they meet, so that the edges share end nodes and nothing else, and joins edges that coincide
 * into one. Points within the tolerance become one node.
 */
export function arrange(pieces: readonly Piece[]): Arrangement {
  const parts = pieces.flatMap((piece, index) => plainParts(piece.segment, index));
  const nodes = createNodes();
  for (const part of parts) {
    nodes.numberOf(part.segment.from);
    nodes.numberOf(part.segment.to);
  }
  const cuts = cutsOf(parts, nodes);
  const edges = parts.flatMap((part, index) => edgesOf(part, cuts[index] ?? [], pieces, nodes));
  return { pieces, nodes: nodes.points, edges: withoutDoubles(edges) };
}

/** The pieces of a contour, ready for an arrangement. */
export function piecesOf(contour: Contour, number: number, set: 0 | 1): Piece[] {
  return segments(contour)
    .filter((segment) => segmentLength(segment) > TOLERANCE)
    .map((segment) => ({ segment, contour: number, set }));
}

interface Part {
  readonly segment: Segment;
  readonly piece: number;
  readonly start: number;
  readonly end: number;
}

/** An arc is cut at its four extremes: what remains goes one way in x and one way in y, so its end points bound it. */
function plainParts(segment: Segment, piece: number): Part[] {
  if (segment.kind === "line") return [{ segment, piece, start: 0, end: 1 }];
  const { startAngle, sweep, radius } = segment;
  const [low, high] = sweep > 0 ? [startAngle, startAngle + sweep] : [startAngle + sweep, startAngle];
  const slack = TOLERANCE / radius;
  const stops = [{ t: 0, point: segment.from }];
  for (let quarter = Math.ceil((low + slack) / QUARTER); quarter * QUARTER < high - slack; quarter++) {
    stops.push({ t: (quarter * QUARTER - startAngle) / sweep, point: extremeOf(segment, quarter) });
  }
  stops.push({ t: 1, point: segment.to });
  stops.sort((p, q) => p.t - q.t);
  return stops.slice(1).map(({ t: end, point: to }, index) => {
    const { t: start, point: from } = stops[index] ?? { t: 0, point: segment.from };
    return { segment: { ...subSegment(segment, start, end), from, to }, piece, start, end };
  });
}

const QUARTER = Math.PI / 2;

/** The point of a circle to the right, above, to the left or below its centre, by the number of quarter turns. */
function extremeOf({ center, radius }: ArcSegment, quarter: number): Point {
  const side = ((quarter % 4) + 4) % 4;
  if (side % 2 === 0) return { x: center.x + (side === 0 ? radius : -radius), y: center.y };
  return { x: center.x, y: center.y + (side === 1 ? radius : -radius) };
}

interface Cut {
  readonly at: number;
  readonly node: number;
}

/**
 * Where each part is cut: at its meetings with others, and at meetings of two others that lie within the tolerance of it
 * (three curves through almost one point).
 */
function cutsOf(parts: readonly Part[], nodes: NodeSet): Cut[][] {
  const cuts: Cut[][] = parts.map(() => []);
  const boxes = parts.map((part) => grownBox(segmentBounds(part.segment), TOLERANCE));
  const ends = nodes.points.length;
  for (const [i, j] of overlappingPairs(boxes)) {
    const [a, b] = [parts[i], parts[j]];
    if (a === undefined || b === undefined) continue;
    for (const meeting of segmentIntersections(a.segment, b.segment)) {
      const node = nodes.numberOf(meeting);
      cuts[i]?.push({ at: meeting.onA, node });
      cuts[j]?.push({ at: meeting.onB, node });
    }
  }
  const inColumn = intervalIndex(boxes.map(({ minX, maxX }) => ({ min: minX, max: maxX })));
  for (let node = ends; node < nodes.points.length; node++) {
    const point = nodes.points[node];
    if (point === undefined) continue;
    for (const index of inColumn(point.x)) {
      const [part, box] = [parts[index], boxes[index]];
      if (part === undefined || box === undefined || point.y < box.minY || point.y > box.maxY) continue;
      if (cuts[index]?.some((cut) => cut.node === node)) continue;
      const nearest = nearestOnSegment(part.segment, point);
      if (distanceBetween(nearest, point) > TOLERANCE) continue;
      cuts[index]?.push({ at: parameterOf(part.segment, nearest), node });
    }
  }
  return cuts;
}

function edgesOf(part: Part, cuts: readonly Cut[], pieces: readonly Piece[], nodes: NodeSet): Edge[] {
  const { segment, piece, start, end } = part;
  const stops = [
    { at: 0, node: nodes.numberOf(segment.from) },
    ...[...cuts].sort((p, q) => p.at - q.at),
    { at: 1, node: nodes.numberOf(segment.to) },
  ];
  const counts: [number, number] = pieces[piece]?.set === 1 ? [0, 1] : [1, 0];
  const edges: Edge[] = [];
  let last = stops[0];
  for (const stop of stops) {
    if (last === undefined || stop.node === last.node) continue;
    const from = nodes.points[last.node];
    const to = nodes.points[stop.node];
    if (from === undefined || to === undefined) continue;
    edges.push({
      from: last.node,
      to: stop.node,
      segment: { ...subSegment(segment, last.at, stop.at), from, to },
      source: { piece, start: start + (end - start) * last.at, end: start + (end - start) * stop.at },
      doubles: [],
      counts,
    });
    last = stop;
  }
  return edges;
}

/** Edges with the same ends and middles within the tolerance are one; the first gives the curve, the counts add up. */
function withoutDoubles(edges: readonly Edge[]): Edge[] {
  const byEnds = new Map<number, Edge[]>();
  const most = edges.reduce((largest, edge) => Math.max(largest, edge.from, edge.to), 0) + 1;
  for (const edge of edges) {
    const key = Math.min(edge.from, edge.to) * most + Math.max(edge.from, edge.to);
    const bundle = byEnds.get(key) ?? [];
    const twin = bundle.findIndex((known) => coincide(known, edge));
    const known = bundle[twin];
    if (known === undefined) bundle.push(edge);
    else
      bundle[twin] = { ...known, doubles: [...known.doubles, edge.source], counts: addedCounts(known, edge) };
    byEnds.set(key, bundle);
  }
  return [...byEnds.values()].flat();
}

function coincide(a: Edge, b: Edge): boolean {
  const middle = pointAt(a.segment, 0.5);
  return distanceBetween(middle, nearestOnSegment(b.segment, middle)) <= TOLERANCE;
}

function addedCounts(known: Edge, edge: Edge): [number, number] {
  const way = known.from === edge.from ? 1 : -1;
  return [known.counts[0] + way * edge.counts[0], known.counts[1] + way * edge.counts[1]];
}

/** The same edge run the other way. */
export function reversedEdge(edge: Edge): Edge {
  const { piece, start, end } = edge.source;
  return {
    from: edge.to,
    to: edge.from,
    segment: reversedSegment(edge.segment),
    source: { piece, start: end, end: start },
    doubles: edge.doubles,
    counts: [-edge.counts[0], -edge.counts[1]],
  };
}
