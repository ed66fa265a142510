import {
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
    const { along, off } = footOf(piece, at);
    if (along < 0 || along > length || off >= least) return;
    least = off;
    const fits = along >= gap / 2 && along <= length - gap / 2;
    best = fits ? { piece: index, from: along - gap / 2, to: along + gap / 2 } : undefined;
  });
  if (best === undefined) {
    throw new RangeError(`no line is long enough for a bridge near x ${at.x}, y ${at.y}`);
  }
  return best;
}

/** How far along a piece, or the line or circle it is a part of, a point lies, and how far beside it. */
function footOf(piece: Segment, at: Point): { along: number; off: number } {
  if (piece.kind === "arc") {
    const { center, radius, startAngle, sweep } = piece;
    const angle = Math.atan2(at.y - center.y, at.x - center.x) - startAngle;
    const turned = positiveAngle(sweep > 0 ? angle : -angle);
    return {
      along: turned * radius,
      off: Math.abs(Math.hypot(at.x - center.x, at.y - center.y) - radius),
    };
  }
  const { from, to } = piece;
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const [x, y] = [(to.x - from.x) / length, (to.y - from.y) / length];
  return {
    along: (at.x - from.x) * x + (at.y - from.y) * y,
    off: Math.abs((at.x - from.x) * y - (at.y - from.y) * x),
  };
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

/** The same angle in 0 <= angle < 2 pi. */
function positiveAngle(angle: number): number {
  const turn = 2 * Math.PI;
  return ((angle % turn) + turn) % turn;
}
