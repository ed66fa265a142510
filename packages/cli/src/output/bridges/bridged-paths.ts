import { type Contour, type Path, type Point, type Segment, segments, type Vertex } from "@keelcut/geometry";

/** A gap on one straight piece of a contour, as ways along that piece from its start, mm. */
interface Gap {
  readonly piece: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The open lines that are left of a contour when it is interrupted around each of the points; each starts where a bridge
 * ends. Arcs stay whole.
 *
 * @param bridges middles of the bridges, on or beside a straight piece of the contour
 * @param gap length of each interruption, mm
 * @throws RangeError when an interruption does not lie within one straight piece
 */
export function bridgedPaths(contour: Contour, bridges: readonly Point[], gap: number): Path[] {
  const pieces = segments(contour);
  const gaps = bridges
    .map((at) => gapAt(pieces, at, gap))
    .sort((a, b) => a.piece - b.piece || a.from - b.from);
  return gaps.map((start, index) => between(pieces, start, gaps[(index + 1) % gaps.length] ?? start));
}

/** On the straight piece nearest to the point, which must have room for the whole gap. */
function gapAt(pieces: readonly Segment[], at: Point, gap: number): Gap {
  let best: Gap | undefined;
  let least = Number.POSITIVE_INFINITY;
  pieces.forEach((piece, index) => {
    if (piece.kind !== "line") return;
    const { length, x, y } = direction(piece);
    const along = (at.x - piece.from.x) * x + (at.y - piece.from.y) * y;
    const off = Math.abs((at.x - piece.from.x) * y - (at.y - piece.from.y) * x);
    if (along < 0 || along > length || off >= least) return;
    least = off;
    const fits = along >= gap / 2 && along <= length - gap / 2;
    best = fits ? { piece: index, from: along - gap / 2, to: along + gap / 2 } : undefined;
  });
  if (best === undefined) {
    throw new RangeError(`no straight line is long enough for a bridge near x ${at.x}, y ${at.y}`);
  }
  return best;
}

/** From the end of one gap to the start of the next, which may be the same gap once around. */
function between(pieces: readonly Segment[], start: Gap, next: Gap): Path {
  const vertices: Vertex[] = [{ ...onPiece(pieces, start.piece, start.to), bulge: 0 }];
  const samePiece = next.piece === start.piece && next.from > start.to;
  if (!samePiece) {
    for (let step = 1; step <= pieces.length; step++) {
      const index = (start.piece + step) % pieces.length;
      const piece = pieces[index];
      if (piece === undefined) break;
      const bulge = piece.kind === "line" ? 0 : Math.tan(piece.sweep / 4);
      vertices.push({ x: piece.from.x, y: piece.from.y, bulge });
      if (index === next.piece) break;
    }
  }
  vertices.push({ ...onPiece(pieces, next.piece, next.from), bulge: 0 });
  return { vertices, closed: false };
}

function onPiece(pieces: readonly Segment[], index: number, along: number): Point {
  const piece = pieces[index];
  if (piece === undefined) throw new RangeError(`there is no piece ${index}`);
  const { x, y } = direction(piece);
  return { x: piece.from.x + along * x, y: piece.from.y + along * y };
}

function direction({ from, to }: Segment): { length: number; x: number; y: number } {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return { length, x: (to.x - from.x) / length, y: (to.y - from.y) / length };
}
