import type { Point } from "../../contour/contour.js";
import { pointDistance } from "../../contour/distance.js";
import { locate } from "../../contour/locate.js";
import { pointAt, type Segment, segments, tangentAt } from "../../contour/segment.js";
import { TOLERANCE } from "../../contour/tolerance.js";
import { distanceBetween } from "../../contour/vector.js";
import type { CutContour } from "./cut.js";
import { type InsideCorner, insideCorners } from "./inside-corners.js";

/**
 * Whether discs of the cut's radius, laid against a contour where no material is, show that it reaches every side and every
 * inside corner as far as a corner allows. A disc that is clear of the contour needs no proof by growing and shrinking; when one
 * of them is not, this says nothing: `false` means unknown.
 */
export function isReachedEverywhere(of: CutContour, cutRadius: number): boolean {
  const { contour, isOutline } = of;
  const pieces = segments(contour);
  const corners = insideCorners(of, cutRadius);
  const most = Math.max(0, ...corners.map(({ uncut }) => uncut));
  const isClear = (center: Point): boolean =>
    pointDistance(contour, center) >= cutRadius - TOLERANCE / 1000 &&
    locate(contour, center) === (isOutline ? "outside" : "inside");

  const discs: Point[] = [];
  for (const corner of corners) {
    const center = discInCorner(corner, pieces, cutRadius);
    if (center === undefined || !isClear(center)) return false;
    discs.push(center);
  }
  return pieces.every((piece) => {
    const middle = pointAt(piece, 0.5);
    // Beside a corner: its disc already comes as near as corners explain.
    if (discs.some((center) => distanceBetween(center, middle) - cutRadius <= most)) return true;
    return isClear(discAgainst(piece, cutRadius));
  });
}

/** The centre of the disc that touches a piece at its middle from the right, where no material is. */
function discAgainst(piece: Segment, radius: number): Point {
  const at = pointAt(piece, 0.5);
  const way = tangentAt(piece, 0.5);
  return { x: at.x + way.y * radius, y: at.y - way.x * radius };
}

/** The centre of the disc that touches both sides of an inside corner, on its bisector: `uncut` off the corner itself. */
function discInCorner(corner: InsideCorner, pieces: readonly Segment[], radius: number): Point | undefined {
  const index = pieces.findIndex((piece) =>
    corner.radius === 0
      ? piece.from.x === corner.at.x && piece.from.y === corner.at.y
      : distanceBetween(pointAt(piece, 0.5), corner.at) === 0,
  );
  const piece = pieces[index];
  if (piece === undefined) return undefined;
  const before = corner.radius === 0 ? (pieces.at(index - 1) ?? piece) : piece;
  const [arriving, leaving] =
    corner.radius === 0
      ? [tangentAt(before, 1), tangentAt(piece, 0)]
      : [tangentAt(piece, 0.5), tangentAt(piece, 0.5)];
  const x = arriving.y + leaving.y;
  const y = -arriving.x - leaving.x;
  const length = Math.hypot(x, y);
  if (length < TOLERANCE) return undefined;
  const reach = radius + corner.uncut;
  return { x: corner.at.x + (x / length) * reach, y: corner.at.y + (y / length) * reach };
}
