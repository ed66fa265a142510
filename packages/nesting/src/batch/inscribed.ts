import {
  bounds,
  type Contour,
  flatten,
  locate,
  type Point,
  pointDistance,
  type Region,
  signedArea,
} from "@keelcut/geometry";
import { enclosingRadius } from "./enclosing-disc.js";

/** The outline of a plate and a disc inside it, openings not regarded. */
export interface Outline {
  readonly outer: Contour;
  /** Enclosed area, mm2. */
  readonly area: number;
  /** Radius of a disc that lies inside, nearly the largest there is, mm. */
  readonly radius: number;
  /** Radius of the smallest disc around points of the contour: no disc around the plate is smaller, mm. */
  readonly around: number;
}

export function outlines(regions: readonly Region[]): Outline[] {
  return regions.map(({ outer }) => ({
    outer,
    area: signedArea(outer),
    radius: inscribedRadius(outer),
    around: enclosingRadius(flatten(outer, CHORD_ERROR, "on")),
  }));
}

/** Of the points taken for the smallest disc, mm. */
const CHORD_ERROR = 0.05;

/**
 * False only when it is certain that no plate with this outline, grown by the distance, lies inside the opening: it has
 * more area than the opening, its disc is wider than the opening's box, or the disc around it larger than the opening's.
 */
export function mayHold(opening: Contour, plate: Outline, distance: number): boolean {
  const area = Math.abs(signedArea(opening));
  const box = bounds(opening);
  const width = Math.min(box.maxX - box.minX, box.maxY - box.minY);
  if (plate.area > area * (1 + 1e-9) || 2 * (plate.radius + distance) > width * (1 + 1e-9)) return false;
  // The points lie on the opening's rim, which is nowhere farther from them than the chord error.
  const around = enclosingRadius(flatten(opening, CHORD_ERROR, "on")) + CHORD_ERROR;
  return plate.around + distance <= around * (1 + 1e-9);
}

/** Share of the box's longer side to which the disc's centre is sought. */
const PRECISION = 1e-3;

/**
 * Radius of a disc inside a contour: the distance of a true inner point from the contour, so never too large; found by
 * halving the most promising squares (a square's points are at most its half diagonal further from the contour than its
 * middle).
 */
export function inscribedRadius(outer: Contour): number {
  const box = bounds(outer);
  const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  const depth = (point: Point): number =>
    locate(outer, point) === "inside" ? pointDistance(outer, point) : -pointDistance(outer, point);
  const middle = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
  let best = Math.max(0, depth(middle));
  let squares = [{ ...middle, half: size / 2, promise: Number.POSITIVE_INFINITY }];
  while (squares.length > 0) {
    const next: typeof squares = [];
    for (const { x, y, half, promise } of squares) {
      if (promise <= best + PRECISION * size) continue;
      const quarter = half / 2;
      for (const [dx, dy] of CORNERS) {
        const point = { x: x + dx * quarter, y: y + dy * quarter };
        const found = depth(point);
        best = Math.max(best, found);
        next.push({ ...point, half: quarter, promise: found + quarter * Math.SQRT2 });
      }
    }
    squares = next.filter((square) => square.promise > best + PRECISION * size);
  }
  return best;
}

const CORNERS = [
  [-1, -1],
  [1, -1],
  [-1, 1],
  [1, 1],
] as const;
