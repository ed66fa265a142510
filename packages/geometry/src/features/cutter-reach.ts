import type { Contour } from "../contour/contour.js";
import { regionArea } from "../contour/measure.js";
import { opened } from "../contour/opened.js";
import { counterClockwise } from "../contour/orient.js";

/**
 * What a round cutter clears of an opening: every corner it cannot enter becomes a true arc of its radius, and narrows
 * it cannot pass split the opening or vanish.
 *
 * Computed as the path of the cutter's centre (inwards by the radius) moved back out by the same radius.
 *
 * @param opening the opening as drawn, counter-clockwise
 * @param radius radius of the cutter, mm
 * @param least openings with less area (mm2) are left out
 */
export function cutterReach(opening: Contour, radius: number, least: number): readonly Contour[] {
  return opened({ outer: counterClockwise(opening), openings: [] }, radius)
    .map(({ outer }) => outer)
    .filter((cleared) => regionArea({ outer: cleared, openings: [] }) >= least);
}
