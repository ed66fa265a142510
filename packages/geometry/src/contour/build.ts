import type { Contour, Point, Vertex } from "./contour.js";
import { counterClockwise } from "./orient.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween, refuseNonFinite } from "./vector.js";

/** A circle as two half arcs, counter-clockwise. Lengths in mm. Throws RangeError unless the radius is positive. */
export function circle(center: Point, radius: number): Contour {
  refuseNonFinite(center, "circle centre");
  refuseNonPositive(radius, "circle radius");
  return [
    { x: center.x + radius, y: center.y, bulge: 1 },
    { x: center.x - radius, y: center.y, bulge: 1 },
  ];
}

/** A rectangle with its lower left corner at (x, y), counter-clockwise from there. Throws RangeError unless both sides are positive. */
export function rectangle(x: number, y: number, width: number, height: number): Contour {
  refuseNonFinite({ x, y }, "rectangle corner");
  refuseNonPositive(width, "rectangle width");
  refuseNonPositive(height, "rectangle height");
  return [
    { x, y, bulge: 0 },
    { x: x + width, y, bulge: 0 },
    { x: x + width, y: y + height, bulge: 0 },
    { x, y: y + height, bulge: 0 },
  ];
}

/** A polygon, turned counter-clockwise if its points are not; it starts at the first point. Throws RangeError below three points. */
export function polygon(points: readonly Point[]): Contour {
  return roundedPolygon(points);
}

/** A corner of a rounded polygon; `radius` in mm, sharp when absent or 0. */
export interface Corner extends Point {
  readonly radius?: number;
}

/**
 * A polygon whose corners, convex or concave, are arcs tangent to both sides; counter-clockwise whatever the order given.
 * Throws RangeError naming the corner when an arc does not fit between its neighbours.
 */
export function roundedPolygon(corners: readonly Corner[]): Contour {
  if (corners.length < 3) throw new RangeError(`a polygon needs at least 3 corners, got ${corners.length}`);
  const rounded = corners.map((corner, index) => roundedCorner(corners, corner, index));
  refuseOverlap(corners, rounded);
  return counterClockwise(withoutRepeats(rounded.flatMap((corner) => corner.vertices)));
}

interface RoundedCorner {
  /** Length the arc takes from each of the two sides, mm. */
  readonly trim: number;
  readonly vertices: readonly Vertex[];
}

function roundedCorner(corners: readonly Corner[], corner: Corner, index: number): RoundedCorner {
  refuseNonFinite(corner, `corner ${index}`);
  const radius = corner.radius ?? 0;
  if (!(Number.isFinite(radius) && radius >= 0)) {
    throw new RangeError(`corner ${index}: the radius must be 0 or more, got ${radius}`);
  }
  const before = corners[(index + corners.length - 1) % corners.length] ?? corner;
  const after = corners[(index + 1) % corners.length] ?? corner;
  const toBefore = distanceBetween(corner, before);
  const toAfter = distanceBetween(corner, after);
  if (toBefore <= TOLERANCE || toAfter <= TOLERANCE) {
    throw new RangeError(`corner ${index} (${corner.x}, ${corner.y}) lies on its neighbour`);
  }
  const inX = (corner.x - before.x) / toBefore;
  const inY = (corner.y - before.y) / toBefore;
  const outX = (after.x - corner.x) / toAfter;
  const outY = (after.y - corner.y) / toAfter;
  const turning = Math.atan2(inX * outY - inY * outX, inX * outX + inY * outY);
  const trim = radius * Math.abs(Math.tan(turning / 2));
  if (trim <= TOLERANCE) return { trim: 0, vertices: [{ x: corner.x, y: corner.y, bulge: 0 }] };
  return {
    trim,
    vertices: [
      { x: corner.x - inX * trim, y: corner.y - inY * trim, bulge: Math.tan(turning / 4) },
      { x: corner.x + outX * trim, y: corner.y + outY * trim, bulge: 0 },
    ],
  };
}

function refuseOverlap(corners: readonly Corner[], rounded: readonly RoundedCorner[]): void {
  corners.forEach((corner, index) => {
    const next = (index + 1) % corners.length;
    const length = distanceBetween(corner, corners[next] ?? corner);
    const ownTrim = rounded[index]?.trim ?? 0;
    const nextTrim = rounded[next]?.trim ?? 0;
    if (ownTrim + nextTrim <= length + TOLERANCE) return;
    const tooBig = ownTrim >= nextTrim ? index : next;
    throw new RangeError(
      `corner ${tooBig} (${corners[tooBig]?.x}, ${corners[tooBig]?.y}): radius ${corners[tooBig]?.radius} does not fit; ` +
        `the arcs at corners ${index} and ${next} need ${(ownTrim + nextTrim).toFixed(3)} mm of a side of ${length.toFixed(3)} mm`,
    );
  });
}

/** Two arcs may use up a side exactly: drop the side of no length between them. */
export function withoutRepeats(vertices: readonly Vertex[]): Vertex[] {
  return vertices.filter((vertex, index) => {
    const next = vertices[(index + 1) % vertices.length] ?? vertex;
    return vertex.bulge !== 0 || distanceBetween(vertex, next) > TOLERANCE;
  });
}

/** A slot with round ends: every point within width/2 of the line from a to b; a circle when a = b. Counter-clockwise, mm. */
export function obround(a: Point, b: Point, width: number): Contour {
  refuseNonFinite(a, "obround end");
  refuseNonFinite(b, "obround end");
  refuseNonPositive(width, "obround width");
  const length = distanceBetween(a, b);
  if (length <= TOLERANCE) return circle(a, width / 2);
  const rightX = ((b.y - a.y) / length) * (width / 2);
  const rightY = (-(b.x - a.x) / length) * (width / 2);
  return [
    { x: a.x + rightX, y: a.y + rightY, bulge: 0 },
    { x: b.x + rightX, y: b.y + rightY, bulge: 1 },
    { x: b.x - rightX, y: b.y - rightY, bulge: 0 },
    { x: a.x - rightX, y: a.y - rightY, bulge: 1 },
  ];
}

function refuseNonPositive(value: number, what: string): void {
  if (!(Number.isFinite(value) && value > 0))
    throw new RangeError(`${what} must be more than 0, got ${value}`);
}
