import type { Contour } from "./contour.js";

/** Throws RangeError on a vertex that is not finite: it would silently be nowhere. */
export function refuseNonFiniteContours(contours: readonly Contour[]): void {
  for (const contour of contours) {
    for (const { x, y, bulge } of contour) {
      if (Number.isFinite(x) && Number.isFinite(y) && Number.isFinite(bulge)) continue;
      throw new RangeError(`vertex (${x}, ${y}, bulge ${bulge}): all three must be finite numbers`);
    }
  }
}
