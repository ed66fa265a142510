import type { Point } from "../contour/contour.js";
import type { BoltPattern } from "../frame/parameters.js";

/**
 * Hole centres of a motor's bolt pattern, mm, centred on the shaft.
 *
 * A cross has its first pair on the x axis and its second pair on the y axis: "16 x 19" is two holes on a 16 mm
 * circle and two on a 19 mm circle at right angles to them, never a 16 by 19 rectangle.
 */
export function boltCentres(pattern: BoltPattern): readonly Point[] {
  switch (pattern.kind) {
    case "circle":
      return Array.from({ length: pattern.holes }, (_, index) => {
        const angle = (2 * Math.PI * index) / pattern.holes;
        return {
          x: (pattern.diameter / 2) * Math.cos(angle),
          y: (pattern.diameter / 2) * Math.sin(angle),
        };
      });
    case "cross": {
      const [first, second] = pattern.diameters;
      return [
        { x: first / 2, y: 0 },
        { x: 0, y: second / 2 },
        { x: -first / 2, y: 0 },
        { x: 0, y: -second / 2 },
      ];
    }
    case "rectangle": {
      const x = pattern.width / 2;
      const y = pattern.height / 2;
      return [
        { x, y },
        { x: -x, y },
        { x: -x, y: -y },
        { x, y: -y },
      ];
    }
  }
}

/** Distance of the farthest hole centre from the shaft, mm. */
export function boltReach(pattern: BoltPattern): number {
  return Math.max(...boltCentres(pattern).map((centre) => Math.hypot(centre.x, centre.y)));
}
