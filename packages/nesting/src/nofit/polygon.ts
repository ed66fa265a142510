/**
 * Polygons as the packing engine sees them: flat arrays of coordinates.
 *
 * A ring is `[x0, y0, x1, y1, ...]`, not closed by a repeated corner. The outer ring runs counter-clockwise, openings
 * clockwise, so the material is always on the left of an edge. Lengths are in whatever unit the caller packs in.
 */
export type Ring = Float64Array;

/** An outer ring and the openings inside it. */
export interface Polygon {
  readonly outer: Ring;
  readonly openings: readonly Ring[];
}

/** How a polygon is turned before it is laid: mirrored in x (x -> -x) first if asked, then rotated, degrees. */
export interface Turn {
  readonly rotation: number;
  readonly mirrored: boolean;
}

/** The box around a polygon. */
export interface Extent {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Twice the area enclosed by a ring, positive when it runs counter-clockwise. */
export function doubledArea(ring: Ring): number {
  let sum = 0;
  const n = ring.length;
  for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
    sum += (ring[j] - ring[0]) * (ring[i + 1] - ring[1]) - (ring[i] - ring[0]) * (ring[j + 1] - ring[1]);
  }
  return sum;
}

/** Area of the material. */
export function polygonArea(polygon: Polygon): number {
  let area = Math.abs(doubledArea(polygon.outer));
  for (const opening of polygon.openings) area -= Math.abs(doubledArea(opening));
  return area / 2;
}

/** The box around the outer ring. */
export function extentOf(ring: Ring): Extent {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (let i = 0; i < ring.length; i += 2) {
    minX = Math.min(minX, ring[i]);
    maxX = Math.max(maxX, ring[i]);
    minY = Math.min(minY, ring[i + 1]);
    maxY = Math.max(maxY, ring[i + 1]);
  }
  return { minX, minY, maxX, maxY };
}

/** The same ring run backwards. */
export function reversedRing(ring: Ring): Ring {
  const n = ring.length;
  const result = new Float64Array(n);
  for (let i = 0; i < n; i += 2) {
    result[i] = ring[n - 2 - i];
    result[i + 1] = ring[n - 1 - i];
  }
  return result;
}

/** A polygon with its rings in the expected directions. RangeError for a ring of fewer than three corners or a number that is not finite. */
export function orientedPolygon(polygon: Polygon): Polygon {
  return {
    outer: withDirection(polygon.outer, 1),
    openings: polygon.openings.map((opening) => withDirection(opening, -1)),
  };
}

/** A polygon turned about the origin. Multiples of 90 degrees use exact sines, so right angles stay right. */
export function turnedPolygon(polygon: Polygon, turn: Turn): Polygon {
  const [cos, sin] = cosSin(turn.rotation);
  const flip = turn.mirrored ? -1 : 1;
  const ring = (source: Ring): Ring => {
    const result = new Float64Array(source.length);
    for (let i = 0; i < source.length; i += 2) {
      const x = flip * source[i];
      const y = source[i + 1];
      result[i] = cos * x - sin * y;
      result[i + 1] = sin * x + cos * y;
    }
    return turn.mirrored ? reversedRing(result) : result;
  };
  return { outer: ring(polygon.outer), openings: polygon.openings.map(ring) };
}

/** Cosine and sine of an angle in degrees, exact at multiples of 90. */
export function cosSin(degrees: number): readonly [number, number] {
  const turned = ((degrees % 360) + 360) % 360;
  if (turned === 0) return [1, 0];
  if (turned === 90) return [0, 1];
  if (turned === 180) return [-1, 0];
  if (turned === 270) return [0, -1];
  const radians = (turned * Math.PI) / 180;
  return [Math.cos(radians), Math.sin(radians)];
}

function withDirection(ring: Ring, sign: number): Ring {
  if (ring.length < 6 || ring.length % 2 !== 0) {
    throw new RangeError(`A ring needs at least three corners, got ${ring.length / 2}`);
  }
  for (const value of ring) {
    if (!Number.isFinite(value)) throw new RangeError(`A ring holds the coordinate ${value}`);
  }
  return doubledArea(ring) * sign < 0 ? reversedRing(ring) : ring;
}

/** Whether two polygons have the same corners in the same order, from whichever corner they begin. */
export function samePolygon(a: Polygon, b: Polygon): boolean {
  return (
    a.openings.length === b.openings.length &&
    sameRing(a.outer, b.outer) &&
    a.openings.every((opening) => b.openings.some((other) => sameRing(opening, other)))
  );
}

function sameRing(a: Float64Array, b: Float64Array): boolean {
  const n = a.length;
  if (b.length !== n) return false;
  let largest = 0;
  for (const value of a) largest = Math.max(largest, Math.abs(value));
  const tolerance = 1e-9 * largest;
  for (let shift = 0; shift < n; shift += 2) {
    let same = true;
    for (let i = 0; i < n && same; i++) same = Math.abs(a[i] - b[(i + shift) % n]) <= tolerance;
    if (same) return true;
  }
  return false;
}
