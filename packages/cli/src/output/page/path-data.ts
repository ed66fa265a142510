import { type Contour, isStraight, type Path, type Region, type Vertex } from "@keelcut/geometry";

/**
 * Path data of a region with true arcs, for an SVG whose y axis points down: y is negated, so the picture
 * stands as the plate does. Fill with the even-odd rule.
 */
export function regionPathData(region: Region): string {
  return [region.outer, ...region.openings].map(contourPathData).join("");
}

/** Path data of one closed contour, y negated. */
export function contourPathData(contour: Contour): string {
  return verticesPathData(contour, true);
}

/** Path data of a mark's line, y negated. */
export function markPathData(path: Path): string {
  return verticesPathData(path.vertices, path.closed);
}

/** A coordinate in mm, three places: a thousandth of a millimetre is far below what a screen or printer shows. */
export function coordinate(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`the page was given the coordinate ${value}`);
  const rounded = Math.round(value * 1000) / 1000;
  return String(rounded === 0 ? 0 : rounded);
}

function verticesPathData(vertices: readonly Vertex[], closed: boolean): string {
  const start = vertices[0];
  if (start === undefined) return "";
  let data = `M${coordinate(start.x)} ${coordinate(-start.y)}`;
  const steps = closed ? vertices.length : vertices.length - 1;
  for (let i = 0; i < steps; i++) {
    const from = vertices[i] as Vertex;
    const to = vertices[(i + 1) % vertices.length] as Vertex;
    const isLast = closed && i === steps - 1;
    if (isStraight(from, to)) {
      // The closing line of a contour is the Z command's own.
      if (!isLast) data += `L${coordinate(to.x)} ${coordinate(-to.y)}`;
    } else {
      data += arcTo(from, to);
    }
  }
  return closed ? `${data}Z` : data;
}

/** Radius = chord (1 + b^2) / (4 |b|), from bulge b = tan(sweep / 4). */
function arcTo(from: Vertex, to: Vertex): string {
  const b = from.bulge;
  const chord = Math.hypot(to.x - from.x, to.y - from.y);
  const radius = coordinate((chord * (1 + b * b)) / (4 * Math.abs(b)));
  const large = Math.abs(b) > 1 ? 1 : 0;
  // Counter-clockwise with y up is the negative direction with y down.
  const positive = b > 0 ? 0 : 1;
  return `A${radius} ${radius} 0 ${large} ${positive} ${coordinate(to.x)} ${coordinate(-to.y)}`;
}
