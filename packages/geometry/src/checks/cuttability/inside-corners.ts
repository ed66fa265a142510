import type { Point } from "../../contour/contour.js";
import { contourLength } from "../../contour/measure.js";
import { type ArcSegment, pointAt, type Segment, segments, tangentAt } from "../../contour/segment.js";
import { TOLERANCE } from "../../contour/tolerance.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { type Cut, type CutContour, counted, grouped } from "./cut.js";

/** A concave corner of the material that is sharper than the cut. */
export interface InsideCorner {
  readonly of: CutContour;
  readonly at: Point;
  /** Radius as drawn, mm; 0 for a sharp corner. */
  readonly radius: number;
  /** Material that the cut leaves in the corner, along the bisector, mm. */
  readonly uncut: number;
}

/** Corners of the material in which a round cut of diameter kerf leaves more than the limit. */
export function cornerFindings(cut: Cut): Finding[] {
  const radius = cut.cutting.kerf / 2;
  const limit = cut.limit("uncut");
  const tight = [cut.outline, ...cut.openings]
    .flatMap((contour) => insideCorners(contour, radius))
    .filter(({ uncut }) => uncut > limit.value + TOLERANCE)
    .map((corner) => ({
      alike: `${corner.of.name} ${numberText(corner.radius)} ${numberText(corner.uncut)}`,
      at: corner.at,
      corner,
    }));
  return grouped(tight).map((group): Finding => {
    const { of, radius: drawn, uncut } = group[0].corner;
    const shape = drawn === 0 ? "sharp inside corner" : `inside radius of ${numberText(drawn)} mm`;
    const cure =
      of.kind === "tab-slot" ? "relieve the corner" : `round it with at least ${numberText(radius)} mm`;
    return {
      id: "cuttability.inside-corner",
      // A corner left in a tab slot keeps the tab out; anywhere else it is a matter of looks.
      severity: of.kind === "tab-slot" ? "warning" : "note",
      place: cut.plate.id,
      message: `${counted(`${shape} of ${of.name}`, group)}: the cut leaves a radius of ${numberText(radius)} mm and ${numberText(uncut)} mm of material in the corner; ${cure}`,
      measured: uncut,
      limit: limit.value,
      why: limit.why,
      source: limit.source,
    };
  });
}

/**
 * Every inside corner that a cut of radius `cutRadius` cannot follow. Between two straight sides at an angle theta,
 * rounded with r or sharp (r = 0), it leaves (R - r)(1 / sin(theta / 2) - 1).
 */
export function insideCorners(of: CutContour, cutRadius: number): readonly InsideCorner[] {
  const pieces = segments(of.contour);
  // The formula has no end for a cusp; no corner leaves more than half the way around.
  const most = contourLength(of.contour) / 2;
  const corner = (at: Point, radius: number, angle: number): InsideCorner => ({
    of,
    at,
    radius,
    uncut: Math.min((cutRadius - radius) * (1 / Math.sin(angle / 2) - 1), most),
  });
  return pieces.flatMap((piece, index) => {
    const turn = turnBetween(pieces.at(index - 1) ?? piece, piece);
    return [
      ...(turn < -STRAIGHT ? [corner(piece.from, 0, Math.PI + turn)] : []),
      ...(isTight(piece, cutRadius)
        ? [corner(pointAt(piece, 0.5), piece.radius, Math.PI + piece.sweep)]
        : []),
    ];
  });
}

/** Turns below this (radians) are joints of a smooth curve: a hundredth of a millimetre over a metre. */
const STRAIGHT = 1e-5;

/** How far the way turns from one piece to the next, radians. To the right is negative: concave, as material lies left. */
function turnBetween(before: Segment, after: Segment): number {
  const a = tangentAt(before, 1);
  const b = tangentAt(after, 0);
  return Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
}

/**
 * An arc that is concave for the material and smaller than the cut. From a half circle on it is the end of a slot or
 * notch and is judged by its width.
 */
function isTight(piece: Segment, cutRadius: number): piece is ArcSegment {
  return (
    piece.kind === "arc" &&
    piece.sweep < 0 &&
    piece.sweep > -Math.PI + STRAIGHT &&
    piece.radius < cutRadius - TOLERANCE
  );
}
