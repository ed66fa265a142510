/**
 * Depth fields: how far inside a no-fit region a point lies, answered in some tens of nanoseconds.
 *
 * The penetration depth of two overlapping shapes is the distance from their relative position to the boundary of
 * their no-fit region: the shortest move that parts them (Agarwal et al. 2000; used for packing by Imamichi, Yagiura
 * and Nagamochi 2009, "An iterated local search algorithm based on nonlinear programming for the irregular strip
 * packing problem").
 *
 * Every region gets a grid of cells over its box. A cell wholly outside the region answers 0 at once; any other lists
 * the edges that can be nearest to one of its points: those within the least distance from the cell's centre plus the
 * cell's diagonal. A cell crossed by the boundary also needs to know whether the point is inside: nearest to the inside
 * of an edge, the side of that edge decides; nearest to a corner, the parity of the edges to the right does, over all
 * rings at once; each level row of cells lists the edges that cross it.
 *
 * All fields lie in flat arrays that workers can share. How they are built: `depth-field-builder.ts`.
 */
export interface DepthFields {
  /** Six numbers a field: minX, minY, cells per unit in x and in y, width, height. */
  readonly frames: Float64Array;
  /** Three numbers a field: columns, first cell, first row. */
  readonly tables: Int32Array;
  /** Per cell: OUTSIDE, or where its list begins in `lists`. */
  readonly cells: Int32Array;
  /** Per row of cells, where its list begins in `lists`; one more at the end of each field. */
  readonly rowStart: Int32Array;
  /**
   * A cell's list begins with twice the number of its edges, plus 1 when the boundary crosses the cell; edges follow. A
   * row's list is edges only. Edges are given by where their data begin in `edges`.
   */
  readonly lists: Int32Array;
  /** Six numbers an edge: start x, y, way to its end x, y, 1 / length^2, end y. The region is on the left. */
  readonly edges: Float64Array;
  /** First edge of each field, and the end. */
  readonly edgeStart: Int32Array;
}

/** A cell wholly outside the region. */
export const OUTSIDE = -1;

/** Numbers an edge takes in `edges`. */
export const EDGE = 6;

/** Where the last `nearestTo` found the boundary. */
export interface Nearest {
  x: number;
  y: number;
  /** Number of the edge; its data begin at EDGE * edge. */
  edge: number;
}

/**
 * Depth of (x, y) in a field: distance to the region's boundary when inside, else 0; and 0 on the boundary, as far as
 * `tolerance` from it.
 */
export function depthAt(fields: DepthFields, field: number, x: number, y: number, tolerance: number): number {
  const { frames, tables } = fields;
  const f = 6 * field;
  const u = x - frames[f];
  const v = y - frames[f + 1];
  if (!(u > 0 && v > 0 && u < frames[f + 4] && v < frames[f + 5])) return 0;
  const row = (v * frames[f + 3]) | 0;
  const cell = tables[3 * field + 1] + row * tables[3 * field] + ((u * frames[f + 2]) | 0);
  const start = fields.cells[cell];
  if (start < 0) return 0;
  const { lists, edges } = fields;
  const head = lists[start];
  const end = start + (head >> 1);
  let least = Infinity;
  // Across the nearest edge: negative inside the region, 0 when nearest to a corner.
  let side = 0;
  for (let i = start + 1; i <= end; i++) {
    const e = lists[i];
    const px = x - edges[e];
    const py = y - edges[e + 1];
    const dx = edges[e + 2];
    const dy = edges[e + 3];
    const s = (px * dx + py * dy) * edges[e + 4];
    let d: number;
    let across = 0;
    if (s <= 0) {
      d = px * px + py * py;
    } else if (s >= 1) {
      const qx = px - dx;
      const qy = py - dy;
      d = qx * qx + qy * qy;
    } else {
      across = px * dy - py * dx;
      d = across * across * edges[e + 4];
    }
    if (d < least) {
      least = d;
      side = across;
    }
  }
  // Places taken from a corner lie on the boundary: most of them end here.
  if (least <= tolerance * tolerance) return 0;
  if ((head & 1) === 1) {
    if (side > 0) return 0;
    if (side === 0 && !isInside(fields, tables[3 * field + 2] + row, x, y)) return 0;
  }
  return Math.sqrt(least);
}

/** As `depthAt`, and when the depth is positive leaves the nearest boundary point in `nearest`. */
export function nearestTo(
  fields: DepthFields,
  field: number,
  x: number,
  y: number,
  tolerance: number,
  nearest: Nearest,
): number {
  const { frames, tables, lists, edges } = fields;
  const f = 6 * field;
  const u = x - frames[f];
  const v = y - frames[f + 1];
  if (!(u > 0 && v > 0 && u < frames[f + 4] && v < frames[f + 5])) return 0;
  const row = (v * frames[f + 3]) | 0;
  const cell = tables[3 * field + 1] + row * tables[3 * field] + ((u * frames[f + 2]) | 0);
  const start = fields.cells[cell];
  if (start < 0) return 0;
  const head = lists[start];
  const end = start + (head >> 1);
  let least = Infinity;
  let side = 0;
  for (let i = start + 1; i <= end; i++) {
    const e = lists[i];
    const px = x - edges[e];
    const py = y - edges[e + 1];
    const dx = edges[e + 2];
    const dy = edges[e + 3];
    const s = Math.max(0, Math.min(1, (px * dx + py * dy) * edges[e + 4]));
    const qx = px - s * dx;
    const qy = py - s * dy;
    const across = s > 0 && s < 1 ? px * dy - py * dx : 0;
    const d = s > 0 && s < 1 ? across * across * edges[e + 4] : qx * qx + qy * qy;
    if (d < least) {
      least = d;
      side = across;
      nearest.x = x - qx;
      nearest.y = y - qy;
      nearest.edge = e / EDGE;
    }
  }
  if (least <= tolerance * tolerance) return 0;
  if ((head & 1) === 1) {
    if (side > 0) return 0;
    if (side === 0 && !isInside(fields, tables[3 * field + 2] + row, x, y)) return 0;
  }
  return Math.sqrt(least);
}

/** Even-odd parity of the edges of one row that a ray to the right meets. */
function isInside(fields: DepthFields, row: number, x: number, y: number): boolean {
  const { lists, edges, rowStart } = fields;
  const end = rowStart[row + 1];
  let inside = false;
  for (let i = rowStart[row]; i < end; i++) {
    const e = lists[i];
    // Half-open in y and on the corners' own values, so that a corner on the ray counts once whatever the rounding.
    const startAbove = edges[e + 1] > y;
    if (startAbove !== edges[e + 5] > y) {
      const across = edges[e + 2] * (y - edges[e + 1]) - edges[e + 3] * (x - edges[e]);
      if (across > 0 !== startAbove) inside = !inside;
    }
  }
  return inside;
}
