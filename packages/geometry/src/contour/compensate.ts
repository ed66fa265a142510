import type { Contour, Point, Region } from "./contour.js";
import { contourGap, pointDistance } from "./distance.js";
import { locate } from "./locate.js";
import { contourCentroid } from "./measure.js";
import { type CornerJoin, offsetContour } from "./offset.js";
import { pointAt, segments } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";

/** Why a contour cannot be cut with a kerf, and where (mm). */
export interface CompensationFault {
  readonly contour: "outline" | number;
  readonly at: Point;
  /** `vanishes`: an opening is too small for the cutter. `pinches`: a part of the contour is too narrow for it to enter. */
  readonly what: "vanishes" | "pinches";
}

export type Compensation =
  | { readonly ok: true; readonly region: Region }
  | { readonly ok: false; readonly faults: readonly CompensationFault[] };

/**
 * The path of the middle of a cutter of width `kerf` (mm) so that the region comes out to size: the outline grows by half
 * the kerf, the openings shrink by it. Each contour must stay one contour and be reached along its whole length,
 * else the places where it is not are named. Inside corners tighter than the cutter are not faults here.
 */
export function compensateRegion(region: Region, kerf: number, corners: CornerJoin = "round"): Compensation {
  if (!(Number.isFinite(kerf) && kerf >= 0)) throw new RangeError(`the kerf must be 0 or more, got ${kerf}`);
  const outer = compensated(region.outer, kerf / 2, "outline", corners);
  const openings = region.openings.map((opening, index) => compensated(opening, -kerf / 2, index, corners));
  const faults = [outer, ...openings].flatMap((result) => result.faults);
  if (faults.length > 0) return { ok: false, faults };
  return { ok: true, region: { outer: outer.contour, openings: openings.map((result) => result.contour) } };
}

interface Compensated {
  readonly contour: Contour;
  readonly faults: readonly CompensationFault[];
}

function compensated(
  contour: Contour,
  by: number,
  name: "outline" | number,
  corners: CornerJoin,
): Compensated {
  const [first, ...others] = offsetContour(contour, by, corners);
  if (first === undefined)
    return { contour, faults: [{ contour: name, at: contourCentroid(contour), what: "vanishes" }] };
  const places = [
    ...unreached(contour, [first, ...others], Math.abs(by)),
    ...others.map((part) => neck(contour, first, part)),
  ];
  return { contour: first, faults: places.map((at) => ({ contour: name, at, what: "pinches" })) };
}

/**
 * The cutter passes half a kerf from every stretch it reaches. It cannot reach the point of a sharp inside corner, but where the
 * middle of a whole segment is a full kerf away from its path, that segment is lost: a notch or a passage too narrow.
 * One place per run of such segments.
 */
function unreached(contour: Contour, paths: readonly Contour[], half: number): Point[] {
  const lost = segments(contour).map((piece) => {
    const middle = pointAt(piece, 0.5);
    const away = Math.min(...paths.map((path) => pointDistance(path, middle)));
    return { middle, isLost: away > 2 * half + TOLERANCE };
  });
  return lost.flatMap(({ middle, isLost }, index) => (isLost && !lost.at(index - 1)?.isLost ? [middle] : []));
}

/** Where a contour pinched off: between the two parts, if the straight way there is not through the other side of the contour. */
function neck(contour: Contour, first: Contour, part: Contour): Point {
  const { from, to } = contourGap(first, part);
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const isBetween = locate(contour, middle) === locate(contour, from);
  return isBetween ? middle : (part[0] ?? middle);
}
