import { hullOf } from "../nofit/hull.js";
import type { Polygon } from "../nofit/polygon.js";
import { polesOf } from "./poles.js";

/** What the collision engine knows of a shape at angle 0, the centre of its box at the origin. */
export interface Silhouette {
  /** Corners of all rings, x and y in turn. */
  readonly corners: Float64Array;
  /** For each corner the number of the next one on its ring. */
  readonly next: Int32Array;
  /** Inscribed circles: x, y, radius in turn. */
  readonly poles: Float64Array;
  /** Radius of the circle about the origin that holds it all. */
  readonly reach: number;
  readonly diameter: number;
}

export function silhouetteOf(polygon: Polygon): Silhouette {
  const rings = [polygon.outer, ...polygon.openings];
  const corners = Float64Array.from(rings.flatMap((ring) => Array.from(ring)));
  const next = new Int32Array(corners.length / 2);
  let first = 0;
  for (const ring of rings) {
    const count = ring.length / 2;
    for (let k = 0; k < count; k++) next[first + k] = first + ((k + 1) % count);
    first += count;
  }
  const hull = hullOf(polygon.outer);
  let reach = 0;
  let diameter = 0;
  for (let i = 0; i < hull.length; i += 2) {
    reach = Math.max(reach, Math.hypot(hull[i], hull[i + 1]));
    for (let j = 0; j < i; j += 2)
      diameter = Math.max(diameter, Math.hypot(hull[i] - hull[j], hull[i + 1] - hull[j + 1]));
  }
  return { corners, next, poles: polesOf(polygon), reach, diameter };
}

/** A silhouette put down somewhere: its corners, poles and box in the plane. Reused, never allocated in the search. */
export interface Laid {
  silhouette: Silhouette;
  readonly corners: Float64Array;
  readonly poles: Float64Array;
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

/** Room for the largest of some silhouettes. */
export function emptyLaid(silhouettes: readonly Silhouette[]): Laid {
  const largest = (size: (s: Silhouette) => number): number => Math.max(...silhouettes.map(size));
  return {
    silhouette: silhouettes[0],
    corners: new Float64Array(largest((s) => s.corners.length)),
    poles: new Float64Array(largest((s) => s.poles.length)),
    minX: 0,
    minY: 0,
    maxX: 0,
    maxY: 0,
  };
}

/** Turns a silhouette by an angle (radians) about the origin and moves it to (x, y). */
export function lay(silhouette: Silhouette, angle: number, x: number, y: number, into: Laid): void {
  const cos = angle === 0 ? 1 : Math.cos(angle);
  const sin = angle === 0 ? 0 : Math.sin(angle);
  into.silhouette = silhouette;
  const source = silhouette.corners;
  const corners = into.corners;
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (let i = 0; i < source.length; i += 2) {
    const px = cos * source[i] - sin * source[i + 1] + x;
    const py = sin * source[i] + cos * source[i + 1] + y;
    corners[i] = px;
    corners[i + 1] = py;
    if (px < minX) minX = px;
    if (px > maxX) maxX = px;
    if (py < minY) minY = py;
    if (py > maxY) maxY = py;
  }
  into.minX = minX;
  into.minY = minY;
  into.maxX = maxX;
  into.maxY = maxY;
  const poles = silhouette.poles;
  for (let i = 0; i < poles.length; i += 3) {
    into.poles[i] = cos * poles[i] - sin * poles[i + 1] + x;
    into.poles[i + 1] = sin * poles[i] + cos * poles[i + 1] + y;
    into.poles[i + 2] = poles[i + 2];
  }
}
