import type { Contour, Region, Vertex } from "./contour.js";
import { filletBetween } from "./fillet.js";
import { signedArea } from "./measure.js";
import { turningAt } from "./raw-offset.js";
import { refuseNonFiniteContours } from "./refuse.js";
import { largestRadii, type RoundedCorner } from "./round-radii.js";
import { bulgeOf, type Segment, segmentLength, segments, subSegment } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { contourFaults } from "./validate.js";

/**
 * The region as a cutter of that radius (mm) can leave it: every concave corner of the material becomes an arc tangent to
 * both sides, and tangent arcs tighter than the radius are widened to it. Where the radius does not fit, the largest
 * tangent arc that does; so an arc tighter than the radius may remain, for a check to find. The contours stay sound.
 */
export function roundInsideCorners(region: Region, radius: number): Region {
  return {
    outer: rounded(region.outer, radius, "concave", true),
    openings: region.openings.map((opening) => rounded(opening, radius, "convex", true)),
  };
}

/**
 * The contour with its corners made arcs tangent to both sides, radius in mm: those where the enclosed area is convex, concave,
 * or all. Where the radius does not fit, the largest tangent arc that does. Throws RangeError on a radius below 0.
 */
export function roundCorners(contour: Contour, radius: number, which: "convex" | "concave" | "all"): Contour {
  return rounded(contour, radius, which, false);
}

function rounded(
  contour: Contour,
  radius: number,
  which: "convex" | "concave" | "all",
  widens: boolean,
): Contour {
  refuseNonFiniteContours([contour]);
  if (!(Number.isFinite(radius) && radius >= 0))
    throw new RangeError(`the radius must be 0 or more, got ${radius}`);
  const pieces = segments(contour).filter((piece) => segmentLength(piece) > TOLERANCE);
  const side = which === "all" ? 0 : (which === "convex" ? 1 : -1) * Math.sign(signedArea(contour));
  const corners = cornersOf(pieces, radius, side, widens);
  if (corners.length === 0) return contour;
  const radii = largestRadii(pieces, corners, radius);
  const all = withFillets(pieces, corners, radii);
  if (contourFaults(all).length === 0) return all;
  return roundedOneByOne(contour, pieces, corners, radii);
}

/** Fillets that fit their sides may still run into a far part of the contour: take each only as large as leaves it sound. */
function roundedOneByOne(
  contour: Contour,
  pieces: readonly Segment[],
  corners: readonly RoundedCorner[],
  radii: readonly number[],
): Contour {
  const accepted = corners.map((corner) => corner.least);
  let result = contour;
  corners.forEach((corner, index) => {
    for (let radius = radii[index] ?? 0; radius > corner.least + TOLERANCE; radius /= 2) {
      accepted[index] = radius;
      const attempt = withFillets(pieces, corners, accepted);
      if (contourFaults(attempt).length === 0) {
        result = attempt;
        return;
      }
    }
    accepted[index] = corner.least;
  });
  return result;
}

/** The corners to round: sharp ones, and when `widens` also tangent arcs between two sides, tighter than the radius. */
function cornersOf(
  pieces: readonly Segment[],
  radius: number,
  side: number,
  widens: boolean,
): RoundedCorner[] {
  const count = pieces.length;
  const isTight = pieces.map(
    (piece, index) =>
      widens &&
      count > 2 &&
      isTightArc(piece, pieces.at(index - 1), pieces[(index + 1) % count], radius, side),
  );
  return pieces.flatMap((piece, index): RoundedCorner[] => {
    const next = (index + 1) % count;
    const after = pieces[next];
    if (after === undefined) return [];
    if (isTight[index]) {
      const before = (index + count - 1) % count;
      if (piece.kind !== "arc" || isTight[before] || isTight[next]) return [];
      return [
        {
          before,
          after: next,
          turn: piece.sweep > 0 ? "left" : "right",
          near: piece.center,
          least: piece.radius,
          replaces: index,
        },
      ];
    }
    const turning = turningAt(piece, after);
    const unreached = radius * (1 / Math.cos(turning / 2) - 1);
    if (turning * side < 0 || isTight[next] || Math.abs(unreached) <= TOLERANCE) return [];
    return [
      {
        before: index,
        after: next,
        turn: turning > 0 ? "left" : "right",
        near: after.from,
        least: 0,
        replaces: undefined,
      },
    ];
  });
}

function isTightArc(
  piece: Segment,
  before: Segment | undefined,
  after: Segment | undefined,
  radius: number,
  side: number,
): boolean {
  if (piece.kind !== "arc" || before === undefined || after === undefined) return false;
  if (piece.radius > radius - TOLERANCE || piece.sweep * side < 0 || Math.abs(piece.sweep) >= Math.PI)
    return false;
  return Math.abs(turningAt(before, piece)) < SMOOTH && Math.abs(turningAt(piece, after)) < SMOOTH;
}

/** Joints that turn less (radians) are tangent. */
const SMOOTH = 1e-5;

function withFillets(
  pieces: readonly Segment[],
  corners: readonly RoundedCorner[],
  radii: readonly number[],
): Contour {
  const starts = pieces.map(() => 0);
  const ends = pieces.map(() => 1);
  const replaced = new Set<number>();
  const arcs = new Map<number, Segment>();
  corners.forEach((corner, index) => {
    const [before, after, radius] = [pieces[corner.before], pieces[corner.after], radii[index] ?? 0];
    if (before === undefined || after === undefined || radius <= corner.least + TOLERANCE) return;
    const fillet = filletBetween(before, after, radius, corner.turn, corner.near);
    if (fillet === undefined) return;
    ends[corner.before] = fillet.onBefore;
    starts[corner.after] = fillet.onAfter;
    if (corner.replaces !== undefined) replaced.add(corner.replaces);
    arcs.set(corner.before, fillet.arc);
  });
  return pieces.flatMap((piece, index): Vertex[] => {
    const [start, end] = [starts[index] ?? 0, ends[index] ?? 1];
    const isLeft = !replaced.has(index) && (end - start) * segmentLength(piece) > TOLERANCE;
    const own = isLeft ? [subSegment(piece, start, end)] : [];
    const fillet = arcs.get(index);
    return [...own, ...(fillet === undefined ? [] : [fillet])].map((part) => ({
      x: part.from.x,
      y: part.from.y,
      bulge: bulgeOf(part),
    }));
  });
}
