import type { Contour, Path, Point, Region, Vertex } from "./contour.js";
import { reversed } from "./orient.js";
import type { Placement } from "./placement.js";

/** Where a point drawn in its own frame lies after placing. Throws RangeError on a placement that is not finite. */
export function placePoint(point: Point, placement: Placement): Point {
  return placer(placement)(point);
}

/**
 * A contour placed. Mirroring would turn it around, so a mirrored contour is run the other way:
 * outer contours stay counter-clockwise and openings clockwise.
 */
export function placeContour(contour: Contour, placement: Placement): Contour {
  const moved = placeVertices(contour, placement);
  return placement.mirrored ? reversed(moved) : moved;
}

export function placeRegion(region: Region, placement: Placement): Region {
  return {
    outer: placeContour(region.outer, placement),
    openings: region.openings.map((opening) => placeContour(opening, placement)),
  };
}

/** A path placed; its vertices keep their order, mirrored or not. */
export function placePath(path: Path, placement: Placement): Path {
  return { vertices: placeVertices(path.vertices, placement), closed: path.closed };
}

export function translate(contour: Contour, dx: number, dy: number): Contour {
  return placeContour(contour, { x: dx, y: dy, rotation: 0, mirrored: false });
}

/** Turned counter-clockwise by `degrees` about a point, by default the origin. */
export function rotate(contour: Contour, degrees: number, about: Point = { x: 0, y: 0 }): Contour {
  const turned = placePoint(about, { x: 0, y: 0, rotation: degrees, mirrored: false });
  return placeContour(contour, {
    x: about.x - turned.x,
    y: about.y - turned.y,
    rotation: degrees,
    mirrored: false,
  });
}

/** x -> -x, run the other way so that its orientation stays. */
export function mirrorX(contour: Contour): Contour {
  return placeContour(contour, { x: 0, y: 0, rotation: 0, mirrored: true });
}

function placeVertices(vertices: readonly Vertex[], placement: Placement): Vertex[] {
  const place = placer(placement);
  return vertices.map((vertex) => ({
    ...place(vertex),
    bulge: placement.mirrored && vertex.bulge !== 0 ? -vertex.bulge : vertex.bulge,
  }));
}

function placer(placement: Placement): (point: Point) => Point {
  const { x, y, rotation, mirrored } = placement;
  if (!(Number.isFinite(x) && Number.isFinite(y) && Number.isFinite(rotation))) {
    throw new RangeError(`placement (${x}, ${y}) turned ${rotation}: all must be finite numbers`);
  }
  const { sin, cos } = exactSine(rotation);
  const side = mirrored ? -1 : 1;
  return (point) => ({
    x: x + cos * side * point.x - sin * point.y,
    y: y + sin * side * point.x + cos * point.y,
  });
}

/** Sine and cosine of an angle in degrees; multiples of 90 are exact, so that right angles stay right. */
export function exactSine(degrees: number): { readonly sin: number; readonly cos: number } {
  const rest = ((degrees % 360) + 360) % 360;
  if (rest === 0) return { sin: 0, cos: 1 };
  if (rest === 90) return { sin: 1, cos: 0 };
  if (rest === 180) return { sin: 0, cos: -1 };
  if (rest === 270) return { sin: -1, cos: 0 };
  const radians = (degrees * Math.PI) / 180;
  return { sin: Math.sin(radians), cos: Math.cos(radians) };
}
