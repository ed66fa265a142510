import { circle } from "../contour/build.js";
import type { Contour, Point } from "../contour/contour.js";
import type { CuttingParameters } from "../frame/parameters.js";

/**
 * How much larger than the cutter a relief is drawn, so that the tool moves through it instead of dwelling
 * (common practice, 2 to 10 %).
 */
const RELIEF_OVERSIZE = 1.05;

/** Below this corner radius (mm) a mating plate is eased over the corner by hand and needs no relief. Own choice. */
const SMALLEST_RELIEVED_RADIUS = 0.3;

/** Radius of the relief a cut needs in a square inside corner, mm; 0 when the beam or jet is fine enough. */
export function reliefRadius(cutting: CuttingParameters): number {
  const cutterRadius = cutting.kerf / 2;
  return cutterRadius < SMALLEST_RELIEVED_RADIUS ? 0 : cutterRadius * RELIEF_OVERSIZE;
}

/**
 * A relief circle that passes through a square corner, its centre on the bisector in the free space.
 *
 * The circle overcuts each wall by r(1 - 1/sqrt 2) = 0.2929 r and leaves nothing uncut.
 *
 * @param corner the corner where two walls at right angles meet
 * @param towardsFree a point diagonally away from the corner in the free space (only its direction counts)
 */
export function cornerRelief(corner: Point, towardsFree: Point, radius: number): Contour {
  const dx = towardsFree.x - corner.x;
  const dy = towardsFree.y - corner.y;
  const length = Math.hypot(dx, dy);
  if (!(length > 0)) throw new RangeError("cornerRelief: the direction to the free space has no length");
  return circle({ x: corner.x + (dx / length) * radius, y: corner.y + (dy / length) * radius }, radius);
}
