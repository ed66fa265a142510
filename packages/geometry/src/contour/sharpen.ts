import type { Contour, Point, Region, Vertex } from "./contour.js";
import { type ArcSegment, type Segment, segments, tangentAt } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { regionFaults } from "./validate.js";
import { distanceBetween } from "./vector.js";

/** A corner sharper than this stays round: its tip would lie farther than four distances from it (the miter limit of SVG 1.1, 11.4). */
const LONGEST_TIP = 4;

/**
 * An offset region with sharp corners: each whole arc about a corner of the source is replaced by the tip where its end tangents
 * meet. An arc that was trimmed, that is too acute, or whose tip would run into another contour, stays.
 */
export function sharpened(result: Region, source: readonly Contour[], distance: number): Region {
  const corners = source.flat();
  const sharp = {
    outer: sharpContour(result.outer, corners, Math.abs(distance)),
    openings: result.openings.map((opening) => sharpContour(opening, corners, Math.abs(distance))),
  };
  return regionFaults(sharp).length === 0 ? sharp : result;
}

/** A line is prolonged to the tip, so its old end goes; an arc keeps its end and a tangent line leads to the tip. */
function sharpContour(contour: Contour, corners: readonly Point[], distance: number): Contour {
  const pieces = segments(contour);
  const tips = pieces.map((piece, index) => {
    const before = pieces.at(index - 1) ?? piece;
    const after = pieces[(index + 1) % pieces.length] ?? piece;
    return isCornerArc(piece, before, after, corners, distance) ? tipOf(piece) : undefined;
  });
  return contour.flatMap((vertex, index): Vertex[] => {
    const tip = tips[index];
    const bulge = tip === undefined ? vertex.bulge : 0;
    const prolongsNext = tips.at(index - 1) !== undefined && pieces[index]?.kind === "line";
    const prolongsLast = tip !== undefined && pieces.at(index - 1)?.kind === "line";
    const start = prolongsNext || prolongsLast ? [] : [{ x: vertex.x, y: vertex.y, bulge }];
    return tip === undefined ? start : [...start, { ...tip, bulge: 0 }];
  });
}

/** An arc about a corner that meets both neighbours tangentially, so was not trimmed. */
function isCornerArc(
  piece: Segment,
  before: Segment,
  after: Segment,
  corners: readonly Point[],
  distance: number,
): piece is ArcSegment {
  if (piece.kind !== "arc" || Math.abs(piece.radius - distance) > TOLERANCE) return false;
  if (!corners.some((corner) => distanceBetween(corner, piece.center) <= TOLERANCE)) return false;
  return (
    isSmooth(tangentAt(before, 1), tangentAt(piece, 0)) && isSmooth(tangentAt(piece, 1), tangentAt(after, 0))
  );
}

function isSmooth(a: Point, b: Point): boolean {
  return Math.abs(a.x * b.y - a.y * b.x) <= 1e-6 && a.x * b.x + a.y * b.y > 0;
}

function tipOf(piece: ArcSegment): Point | undefined {
  const half = Math.abs(piece.sweep) / 2;
  if (half >= Math.PI / 2 || 1 / Math.cos(half) > LONGEST_TIP) return undefined;
  const middle = piece.startAngle + piece.sweep / 2;
  const reach = piece.radius / Math.cos(half);
  return { x: piece.center.x + reach * Math.cos(middle), y: piece.center.y + reach * Math.sin(middle) };
}
