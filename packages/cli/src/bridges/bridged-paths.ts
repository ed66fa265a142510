import {
  arcParameter,
  type Contour,
  type Path,
  type Point,
  pointAt,
  type Segment,
  segmentLength,
  segments,
  type Vertex,
} from "@keelcut/geometry";

/** A gap on one piece of a contour, as ways along that piece from its start, mm. */
interface Gap {
  readonly piece: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The open lines that are left of a contour when it is interrupted around each of the points; each starts where a bridge
 * ends.
 *
 * @param bridges middles of the bridges, on or beside a piece of the contour
 * @param gap length of each interruption along the contour, mm
 * @throws RangeError when an interruption does not lie within one piece
 */
export function bridgedPaths(contour: Contour, bridges: readonly Point[], gap: number): Path[] {
  const pieces = segments(contour);
  const gaps = bridges
    .map((at) => gapAt(pieces, at, gap))
    .sort((a, b) => a.piece - b.piece || a.from - b.from);
  return gaps.map((start, index) => between(pieces, start, gaps[(index + 1) % gaps.length] ?? start));
}

/** On the piece nearest to the point, which must have room for the whole gap. */
function gapAt(pieces: readonly Segment[], at: Point, gap: number): Gap {
  let best: Gap | undefined;
  let least = Number.POSITIVE_INFINITY;
  pieces.forEach((piece, index) => {
    const length = segmentLength(piece);
    const foot = footOf(piece, at);
    if (foot === undefined || foot.off >= least) return;
    const { along } = foot;
    least = foot.off;
    const fits = along >= gap / 2 && along <= length - gap / 2;
    best = fits ? { piece: index, from: along - gap / 2, to: along + gap / 2 } : undefined;
  });
  if (best === undefined) {
    throw new RangeError(`no line is long enough for a bridge near x ${at.x}, y ${at.y}`);
  }
  return best;
}

/** How far along a piece the point of it lies that a point is beside, and how far beside; undefined beyond its ends. */
function footOf(piece: Segment, at: Point): { along: number; off: number } | undefined {
  const length = segmentLength(piece);
  if (piece.kind === "arc") {
    const [x, y] = [at.x - piece.center.x, at.y - piece.center.y];
    const share = arcParameter(piece, Math.atan2(y, x));
    return share === undefined
      ? undefined
      : { along: share * length, off: Math.abs(Math.hypot(x, y) - piece.radius) };
  }
  const { from, to } = piece;
  const [x, y] = [(to.x - from.x) / length, (to.y - from.y) / length];
  const along = (at.x - from.x) * x + (at.y - from.y) * y;
  const off = Math.abs((at.x - from.x) * y - (at.y - from.y) * x);
  return along < 0 || along > length ? undefined : { along, off };
}

/** From the end of one gap to the start of the next, which may be the same gap once around. */
function between(pieces: readonly Segment[], start: Gap, next: Gap): Path {
  const vertices: Vertex[] = [];
  const add = (index: number, from: number, to: number): void => {
    const piece = pieces[index];
    if (piece === undefined) throw new RangeError(`there is no piece ${index}`);
    const length = segmentLength(piece);
    const bulge = piece.kind === "line" ? 0 : Math.tan((piece.sweep * (to - from)) / length / 4);
    const { x, y } = from === 0 ? piece.from : pointAt(piece, from / length);
    vertices.push({ x, y, bulge });
  };
  const samePiece = next.piece === start.piece && next.from > start.to;
  const lengthOf = (index: number): number => {
    const piece = pieces[index];
    return piece === undefined ? 0 : segmentLength(piece);
  };
  add(start.piece, start.to, samePiece ? next.from : lengthOf(start.piece));
  if (!samePiece) {
    for (let step = 1; step <= pieces.length; step++) {
      const index = (start.piece + step) % pieces.length;
      add(index, 0, index === next.piece ? next.from : lengthOf(index));
      if (index === next.piece) break;
    }
  }
  add(next.piece, next.from, next.from);
  return { vertices, closed: false };
}
