import { rememberedFor } from "../remember.js";
import type { Contour, Point, Region } from "./contour.js";
import { addMoments, type Moments, momentsOf, noMoments, scaledMoments } from "./moments.js";
import { segmentLength, segments } from "./segment.js";

/** Length of the closed curve, mm. */
export const contourLength: (contour: Contour) => number = rememberedFor((contour: Contour) =>
  segments(contour).reduce((sum, piece) => sum + segmentLength(piece), 0),
);

/** Enclosed area, mm2: positive when the contour runs counter-clockwise, negative when clockwise. Closed form, arcs included. */
export const signedArea: (contour: Contour) => number = rememberedFor(
  (contour: Contour) => momentsOf(contour).area,
);

/** Centre of gravity of the enclosed area, mm. Throws RangeError when the contour encloses none. */
export function contourCentroid(contour: Contour): Point {
  return centroidOf(momentsOf(contour));
}

/** Second moments of an area about axes through its centroid, mm4. */
export interface SecondMoments {
  /** Integral of y2 dA: bending about the x axis. */
  readonly ix: number;
  /** Integral of x2 dA: bending about the y axis. */
  readonly iy: number;
  /** Integral of x y dA. */
  readonly ixy: number;
}

/** Second moments of the enclosed area about its centroid, mm4; the same for both orientations. */
export function contourSecondMoments(contour: Contour): SecondMoments {
  return centralMoments(momentsOf(contour));
}

/** Area of the material, mm2. */
export function regionArea(region: Region): number {
  return regionMoments(region).area;
}

/** Centre of gravity of the material, mm. */
export function regionCentroid(region: Region): Point {
  return centroidOf(regionMoments(region));
}

/** Length of all contours together, mm: what a cutter travels. */
export function regionLength(region: Region): number {
  return region.openings.reduce((sum, opening) => sum + contourLength(opening), contourLength(region.outer));
}

/** Second moments of the material about its centroid, mm4. */
export function regionSecondMoments(region: Region): SecondMoments {
  return centralMoments(regionMoments(region));
}

/** Outer minus openings, whichever way they run. All are taken about one origin, so they may be added. */
const regionMoments = rememberedFor((region: Region): Moments => {
  const origin = region.outer[0] ?? { x: 0, y: 0 };
  const outer = positive(momentsOf(region.outer, origin));
  return region.openings
    .map((opening) => scaledMoments(positive(momentsOf(opening, origin)), -1))
    .reduce(addMoments, addMoments(noMoments(origin), outer));
});

function positive(moments: Moments): Moments {
  return moments.area < 0 ? scaledMoments(moments, -1) : moments;
}

function centroidOf(moments: Moments): Point {
  if (moments.area === 0) throw new RangeError("a contour that encloses no area has no centroid");
  return {
    x: moments.origin.x + moments.x / moments.area,
    y: moments.origin.y + moments.y / moments.area,
  };
}

function centralMoments(moments: Moments): SecondMoments {
  const { area, x, y, xx, yy, xy } = moments;
  if (area === 0) throw new RangeError("a contour that encloses no area has no second moments");
  const sign = Math.sign(area);
  return {
    ix: (yy - (y * y) / area) * sign,
    iy: (xx - (x * x) / area) * sign,
    ixy: (xy - (x * y) / area) * sign,
  };
}
