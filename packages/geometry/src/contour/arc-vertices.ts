import type { Point, Vertex } from "./contour.js";
import { polar } from "./vector.js";

/**
 * The vertices that draw an arc and stand at its end: one vertex per piece plus the end point (bulge 0).
 * No piece exceeds a half circle, so that bulges stay within -1..1, where they are well conditioned.
 */
export function arcVertices(center: Point, radius: number, startAngle: number, sweep: number): Vertex[] {
  const pieces = Math.max(1, Math.ceil(Math.abs(sweep) / Math.PI - 1e-12));
  const bulge = radius === 0 ? 0 : Math.tan(sweep / pieces / 4);
  const vertices: Vertex[] = [];
  for (let piece = 0; piece < pieces; piece++) {
    vertices.push({ ...polar(center, radius, startAngle + (sweep * piece) / pieces), bulge });
  }
  return [...vertices, { ...polar(center, radius, startAngle + sweep), bulge: 0 }];
}
