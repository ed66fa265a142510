import type { Ring } from "./polygon.js";

/** Corners of the convex hull, counter-clockwise (A. M. Andrew, Information Processing Letters 9, 1979; from memory). */
export function hullOf(ring: Ring): Ring {
  const points = Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]] as const);
  points.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (order: readonly (readonly [number, number])[]): (readonly [number, number])[] => {
    const hull: (readonly [number, number])[] = [];
    for (const p of order) {
      while (hull.length >= 2) {
        const [a, b] = [hull[hull.length - 2], hull[hull.length - 1]];
        if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
        hull.pop();
      }
      hull.push(p);
    }
    return hull.slice(0, -1);
  };
  return Float64Array.from([...chain(points), ...chain(points.reverse())].flat());
}
