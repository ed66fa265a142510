import type { Contour, Point, Region } from "./contour.js";
import { crossings } from "./crossings.js";
import { prolongation, prolonged } from "./prolong.js";
import { type ArcSegment, bulgeOf, reversedSegment, type Segment, segments, tangentAt } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { regionFaults } from "./validate.js";
import { distanceBetween } from "./vector.js";

/** A corner stays round if its tip would lie farther than four distances from it (the miter limit of SVG 1.1, clause 11.4). */
const LONGEST_TIP = 4;

/**
 * An offset region with sharp corners: each whole arc about a corner of the source gives way to its two neighbours, prolonged
 * along their lines or circles until they meet. An arc that was trimmed, whose neighbours meet too far away or not at all,
 * or whose tip would run into another contour, stays.
 */
export function sharpened(result: Region, source: readonly Contour[], distance: number): Region {
  const corners = source.flat();
  const sharp = {
    outer: sharpContour(result.outer, corners, Math.abs(distance)),
    openings: result.openings.map((opening) => sharpContour(opening, corners, Math.abs(distance))),
  };
  return regionFaults(sharp).length === 0 ? sharp : result;
}

function sharpContour(contour: Contour, corners: readonly Point[], distance: number): Contour {
  const pieces = segments(contour);
  const count = pieces.length;
  const tips = pieces.map((piece, index) => {
    const [before, after] = [pieces.at(index - 1), pieces[(index + 1) % count]];
    if (before === undefined || after === undefined) return undefined;
    return isCornerArc(piece, before, after, corners, distance) ? tipOf(piece, before, after) : undefined;
  });
  return pieces.flatMap((piece, index) => {
    if (tips[index] !== undefined) return [];
    const sharp = prolonged(piece, tips.at(index - 1), tips[(index + 1) % count]);
    return [{ x: sharp.from.x, y: sharp.from.y, bulge: bulgeOf(sharp) }];
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

function tipOf(corner: ArcSegment, before: Segment, after: Segment): Point | undefined {
  const reach = LONGEST_TIP * corner.radius;
  const meetings = crossings(prolongation(before, reach), prolongation(reversedSegment(after), reach));
  return meetings
    .map((tip) => ({ tip, away: distanceBetween(tip, corner.center) }))
    .filter(({ away }) => away <= reach)
    .sort((p, q) => p.away - q.away)[0]?.tip;
}
