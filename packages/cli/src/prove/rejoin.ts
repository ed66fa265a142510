import { type Point, pathSegments, tangentAt, type Vertex } from "@keelcut/geometry";
import type { ReadShape } from "../input/import/read-file.js";
import { WRITTEN } from "./compare-contours.js";

/** A contour put together again from the open lines its bridges left, and where the bridges are. */
interface Rejoined {
  readonly shape: ReadShape;
  /** The open lines, in the order they follow each other. */
  readonly from: readonly ReadShape[];
  /** Middle of each gap. */
  readonly gaps: readonly Point[];
}

export interface RejoinResult {
  readonly joined: readonly Rejoined[];
  /** Open lines that are no part of a contour with bridges. */
  readonly loose: readonly ReadShape[];
}

/**
 * Puts contours with bridges together again. Two ends belong together when they lie on one straight line, face each
 * other, and are one gap apart; nothing else is taken for a bridge, and an end with two such partners is left loose.
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
    joined.push(assembled(shape, ring));
  }
  return { joined, loose: shapes.filter((shape) => free.has(shape)) };
}

/** One end of an open line; `out` points on beyond it, a unit vector. */
interface End {
  readonly shape: ReadShape;
  readonly first: boolean;
  readonly at: Point;
  readonly out: Point;
}

function endsOf(shape: ReadShape): End[] {
  const pieces = pathSegments({ vertices: shape.vertices, closed: false });
  const [start, end] = [pieces[0], pieces.at(-1)];
  if (start === undefined || end === undefined) return [];
  const back = tangentAt(start, 0);
  return [
    { shape, first: true, at: start.from, out: { x: -back.x, y: -back.y } },
    { shape, first: false, at: end.to, out: tangentAt(end, 1) },
  ];
}

/** Rounding of two end points, mm, and of a direction over the shortest line beside a gap. */
const SLACK = 4 * WRITTEN;
const TURN = 1e-4;

function partnerOf(end: End, ends: readonly End[], gap: number): End | undefined {
  const aim = { x: end.at.x + gap * end.out.x, y: end.at.y + gap * end.out.y };
  const found = ends.filter(
    (other) =>
      other !== end &&
      Math.abs(other.at.x - aim.x) <= SLACK + gap * TURN &&
      Math.abs(other.at.y - aim.y) <= SLACK + gap * TURN &&
      Math.abs(Math.hypot(other.at.x - end.at.x, other.at.y - end.at.y) - gap) <= SLACK &&
      Math.hypot(other.out.x + end.out.x, other.out.y + end.out.y) <= TURN,
  );
  return found.length === 1 ? found[0] : undefined;
}

interface Member {
  readonly shape: ReadShape;
  /** It runs against the direction of the ring. */
  readonly turned: boolean;
}

function ringFrom(
  shape: ReadShape,
  ends: readonly End[],
  partners: ReadonlyMap<End, End | undefined>,
): Member[] | undefined {
  const ring: Member[] = [];
  let member: Member = { shape, turned: false };
  while (ring.length <= ends.length / 2) {
    ring.push(member);
    const { shape: here, turned } = member;
    const leaving = ends.find((end) => end.shape === here && end.first === turned);
    const arriving = leaving === undefined ? undefined : partners.get(leaving);
    if (leaving === undefined || arriving === undefined || partners.get(arriving) !== leaving)
      return undefined;
    if (arriving.shape === shape) return arriving.first ? ring : undefined;
    member = { shape: arriving.shape, turned: !arriving.first };
  }
  return undefined;
}

function assembled(first: ReadShape, ring: readonly Member[]): Rejoined {
  const runs = ring.map(({ shape, turned }) => run(shape, turned));
  const gaps = runs.map((vertices, index): Point => {
    const from = vertices.at(-1);
    const to = runs[(index + 1) % runs.length]?.[0];
    return { x: ((from?.x ?? 0) + (to?.x ?? 0)) / 2, y: ((from?.y ?? 0) + (to?.y ?? 0)) / 2 };
  });
  return {
    shape: { ...first, vertices: runs.flat(), closed: true },
    from: ring.map((member) => member.shape),
    gaps,
  };
}

/** The vertices in the ring's direction; the last leads over the gap by a straight line. */
function run({ vertices }: ReadShape, turned: boolean): Vertex[] {
  const bulge = (index: number): number => vertices[index]?.bulge ?? 0;
  const last = vertices.length - 1;
  const forward = vertices.map(({ x, y }, index) => ({ x, y, bulge: index === last ? 0 : bulge(index) }));
  if (!turned) return forward;
  return [...vertices]
    .reverse()
    .map(({ x, y }, index) => ({ x, y, bulge: index === last ? 0 : -bulge(last - index - 1) }));
}
