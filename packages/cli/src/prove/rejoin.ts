import { type Point, pathSegments, type Segment, tangentAt, type Vertex } from "@keelcut/geometry";
import type { ReadShape } from "../input/import/read-file.js";
import { WRITTEN } from "./compare-contours.js";

/** A contour put together again from the open lines its bridges left, and where the bridges are. */
interface Rejoined {
  readonly shape: ReadShape;
  /** The open lines, in the order they follow each other. */
  readonly from: readonly ReadShape[];
  /** Middle of each gap. */
  readonly gaps: readonly Point[];
  /** All open lines run one way around. */
  readonly oneWay: boolean;
}

export interface RejoinResult {
  readonly joined: readonly Rejoined[];
  /** Open lines that are no part of a contour with bridges. */
  readonly loose: readonly ReadShape[];
}

/**
 * Puts contours with bridges together again. Two ends belong together when they lie on one straight line or circle, face
 * each other along it, and are one gap apart; nothing else is taken for a bridge, and an end with two such partners is left
 * loose.
 *
 * @param gap length of the interruption at a bridge, mm
 */
export function rejoin(shapes: readonly ReadShape[], gap: number): RejoinResult {
  const ends = shapes.flatMap(endsOf);
  const partners = new Map(ends.map((end) => [end, partnerOf(end, ends, gap)]));
  const free = new Set(shapes);
  const joined: Rejoined[] = [];
  for (const shape of shapes) {
    if (!free.has(shape)) continue;
    const ring = ringFrom(shape, ends, partners);
    if (ring === undefined || ring.some(({ shape: member }) => !free.has(member))) continue;
    for (const { shape: member } of ring) free.delete(member);
    joined.push(assembled(shape, ring, gap));
  }
  return { joined, loose: shapes.filter((shape) => free.has(shape)) };
}

/** One end of an open line; `out` points on beyond it, a unit vector. */
interface End {
  readonly shape: ReadShape;
  readonly first: boolean;
  readonly at: Point;
  readonly out: Point;
  /** Of the line it ends, 1/mm; positive when going on it would turn to the left. */
  readonly curvature: number;
}

function endsOf(shape: ReadShape): End[] {
  const pieces = pathSegments({ vertices: shape.vertices, closed: false });
  const [start, end] = [pieces[0], pieces.at(-1)];
  if (start === undefined || end === undefined) return [];
  const back = tangentAt(start, 0);
  return [
    {
      shape,
      first: true,
      at: start.from,
      out: { x: -back.x, y: -back.y },
      curvature: -curvatureOf(start),
    },
    { shape, first: false, at: end.to, out: tangentAt(end, 1), curvature: curvatureOf(end) },
  ];
}

/** Along its direction. */
function curvatureOf(piece: Segment): number {
  return piece.kind === "line" ? 0 : Math.sign(piece.sweep) / piece.radius;
}

/** Where one comes to from an end, going on as it does for some way, and the direction there. */
function beyond({ at, out, curvature }: End, way: number): { at: Point; out: Point } {
  const half = (curvature * way) / 2;
  const chord = half === 0 ? way : (way * Math.sin(half)) / half;
  const along = rotated(out, half);
  return { at: { x: at.x + chord * along.x, y: at.y + chord * along.y }, out: rotated(out, 2 * half) };
}

function rotated({ x, y }: Point, angle: number): Point {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return { x: cos * x - sin * y, y: sin * x + cos * y };
}

/** Rounding of two end points, mm, and of a direction over the shortest line beside a gap. */
const SLACK = 4 * WRITTEN;
const TURN = 1e-4;

function partnerOf(end: End, ends: readonly End[], gap: number): End | undefined {
  const aim = beyond(end, gap);
  const chord = Math.hypot(aim.at.x - end.at.x, aim.at.y - end.at.y);
  const found = ends.filter(
    (other) =>
      other !== end &&
      Math.abs(other.at.x - aim.at.x) <= SLACK + gap * TURN &&
      Math.abs(other.at.y - aim.at.y) <= SLACK + gap * TURN &&
      Math.abs(Math.hypot(other.at.x - end.at.x, other.at.y - end.at.y) - chord) <= SLACK &&
      Math.hypot(other.out.x + aim.out.x, other.out.y + aim.out.y) <= TURN,
  );
  return found.length === 1 ? found[0] : undefined;
}

interface Member {
  readonly shape: ReadShape;
  /** It runs against the direction of the ring. */
  readonly turned: boolean;
  /** The end that the ring leaves it by, over the next gap. */
  readonly leaving: End;
}

function ringFrom(
  shape: ReadShape,
  ends: readonly End[],
  partners: ReadonlyMap<End, End | undefined>,
): Member[] | undefined {
  const ring: Member[] = [];
  let here = shape;
  let turned = false;
  while (ring.length <= ends.length / 2) {
    const leaving = ends.find((end) => end.shape === here && end.first === turned);
    const arriving = leaving === undefined ? undefined : partners.get(leaving);
    if (leaving === undefined || arriving === undefined || partners.get(arriving) !== leaving)
      return undefined;
    ring.push({ shape: here, turned, leaving });
    if (arriving.shape === shape) return arriving.first ? ring : undefined;
    here = arriving.shape;
    turned = !arriving.first;
  }
  return undefined;
}

function assembled(first: ReadShape, ring: readonly Member[], gap: number): Rejoined {
  return {
    shape: { ...first, vertices: ring.flatMap((member) => run(member, gap)), closed: true },
    from: ring.map((member) => member.shape),
    gaps: ring.map(({ leaving }) => beyond(leaving, gap / 2).at),
    oneWay: !ring.some(({ turned }) => turned),
  };
}

/** The vertices in the ring's direction; the last leads over the gap, straight or along the arc it ends. */
function run({ shape: { vertices }, turned, leaving }: Member, gap: number): Vertex[] {
  const bulge = (index: number): number => vertices[index]?.bulge ?? 0;
  const last = vertices.length - 1;
  const over = Math.tan((leaving.curvature * gap) / 4);
  const forward = vertices.map(({ x, y }, index) => ({ x, y, bulge: index === last ? over : bulge(index) }));
  if (!turned) return forward;
  return [...vertices]
    .reverse()
    .map(({ x, y }, index) => ({ x, y, bulge: index === last ? over : -bulge(last - index - 1) }));
}
