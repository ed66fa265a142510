import { extentOf, type Ring } from "./polygon.js";

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
 * All fields lie in flat arrays that workers can share. Cost: cells * edges to build.
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

const OUTSIDE = -1;

/** Numbers an edge takes in `edges`. */
export const EDGE = 6;

/** Where the last `nearestTo` found the boundary. */
export interface Nearest {
  x: number;
  y: number;
  /** Number of the edge; its data begin at EDGE * edge. */
  edge: number;
}

/** Depth of (x, y) in a field: distance to the region's boundary when inside, else 0. */
export function depthAt(fields: DepthFields, field: number, x: number, y: number): number {
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
  if ((head & 1) === 1 && !isInside(fields, tables[3 * field + 2] + row, x, y)) return 0;
  const end = start + (head >> 1);
  let least = Infinity;
  for (let i = start + 1; i <= end; i++) {
    const e = lists[i];
    const px = x - edges[e];
    const py = y - edges[e + 1];
    const dx = edges[e + 2];
    const dy = edges[e + 3];
    const s = Math.max(0, Math.min(1, (px * dx + py * dy) * edges[e + 4]));
    const qx = px - s * dx;
    const qy = py - s * dy;
    const across = px * dy - py * dx;
    const d = s > 0 && s < 1 ? across * across * edges[e + 4] : qx * qx + qy * qy;
    if (d < least) {
      least = d;
      nearest.x = x - qx;
      nearest.y = y - qy;
      nearest.edge = e / EDGE;
    }
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

/** Builds the fields of regions given as rings in the unit of the search. */
export function buildDepthFields(regions: readonly (readonly Ring[])[]): DepthFields {
  const side = Math.max(LEAST_SIDE, Math.min(MOST_SIDE, Math.floor(Math.sqrt(CELLS / regions.length))));
  const parts = regions.map((rings) => buildField(rings, side));
  const total = (size: (part: FieldParts) => number): number =>
    parts.reduce((sum, part) => sum + size(part), 0);
  const result = {
    frames: sharedReals(6 * parts.length),
    tables: sharedInts(3 * parts.length),
    cells: sharedInts(total((part) => part.cells.length)),
    rowStart: sharedInts(total((part) => part.rowStart.length)),
    lists: sharedInts(total((part) => part.lists.length)),
    edges: sharedReals(total((part) => part.edges.length)),
    edgeStart: sharedInts(parts.length + 1),
  };
  let cell = 0;
  let row = 0;
  let list = 0;
  let edge = 0;
  parts.forEach((part, k) => {
    result.frames.set(part.frame, 6 * k);
    result.tables.set([part.columns, cell, row], 3 * k);
    result.edgeStart[k] = edge / EDGE;
    part.lists.forEach((value, i) => {
      result.lists[list + i] = value + edge;
    });
    part.cells.forEach((start, i) => {
      result.cells[cell + i] = start === OUTSIDE ? OUTSIDE : start + list;
      // The head of a list is no edge.
      if (start !== OUTSIDE) result.lists[list + start] = part.lists[start];
    });
    part.rowStart.forEach((start, i) => {
      result.rowStart[row + i] = start + list;
    });
    result.edges.set(part.edges, edge);
    cell += part.cells.length;
    row += part.rowStart.length;
    list += part.lists.length;
    edge += part.edges.length;
  });
  result.edgeStart[parts.length] = edge / EDGE;
  return result;
}

/** Cells a side of a field, and about how many there may be in all: with many fields, memory is dearer than a comparison. */
const LEAST_SIDE = 12;
const MOST_SIDE = 48;
const CELLS = 2 ** 20;

/** So that no point within the box is rounded into the row or column after the last. */
const WITHIN = 1 - 2 ** -50;

interface FieldParts {
  readonly frame: readonly number[];
  readonly columns: number;
  readonly cells: readonly number[];
  readonly rowStart: readonly number[];
  readonly lists: readonly number[];
  readonly edges: Float64Array;
}

function buildField(rings: readonly Ring[], side: number): FieldParts {
  const edges = edgesOf(rings);
  const count = edges.length / EDGE;
  const box = rings.map(extentOf).reduce((a, b) => ({
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  }));
  const width = box.maxX - box.minX;
  const height = box.maxY - box.minY;
  const cells: number[] = [];
  const lists: number[] = [];
  const halfDiagonal = Math.hypot(width / side, height / side) / 2;
  const distance = new Float64Array(count);
  const rowEdges = Array.from({ length: side }, (_, row) =>
    edgesAcross(edges, box.minY + (row * height) / side, box.minY + ((row + 1) * height) / side),
  );
  for (let row = 0; row < side; row++) {
    for (let column = 0; column < side; column++) {
      const x = box.minX + ((column + 0.5) * width) / side;
      const y = box.minY + ((row + 0.5) * height) / side;
      let least = Infinity;
      for (let e = 0; e < count; e++) {
        distance[e] = distanceToEdge(edges, EDGE * e, x, y);
        if (distance[e] < least) least = distance[e];
      }
      const mixed = least <= halfDiagonal * 1.000001;
      if (!mixed && !parity(edges, rowEdges[row], x, y)) {
        cells.push(OUTSIDE);
        continue;
      }
      const reach = (least + 2 * halfDiagonal) * 1.000001;
      const head = lists.length;
      cells.push(head);
      lists.push(0);
      for (let e = 0; e < count; e++) if (distance[e] <= reach) lists.push(EDGE * e);
      lists[head] = 2 * (lists.length - head - 1) + (mixed ? 1 : 0);
    }
  }
  const rowStart: number[] = [];
  for (const list of rowEdges) {
    rowStart.push(lists.length);
    for (const e of list) lists.push(EDGE * e);
  }
  rowStart.push(lists.length);
  return {
    frame: [box.minX, box.minY, (side / width) * WITHIN, (side / height) * WITHIN, width, height],
    columns: side,
    cells,
    rowStart,
    lists,
    edges,
  };
}

function edgesOf(rings: readonly Ring[]): Float64Array {
  const corners = rings.reduce((sum, ring) => sum + ring.length / 2, 0);
  const edges = new Float64Array(EDGE * corners);
  let e = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const q = i + 2 === ring.length ? 0 : i + 2;
      const dx = ring[q] - ring[i];
      const dy = ring[q + 1] - ring[i + 1];
      edges.set([ring[i], ring[i + 1], dx, dy, 1 / (dx * dx + dy * dy), ring[q + 1]], e);
      e += EDGE;
    }
  }
  return edges;
}

/** Edges that meet the band from `low` to `high`, with a hair to spare for rounding; level edges never count for parity. */
function edgesAcross(edges: Float64Array, low: number, high: number): number[] {
  const spare = 1e-9 * (high - low);
  const list: number[] = [];
  for (let e = 0; e < edges.length; e += EDGE) {
    const y0 = edges[e + 1];
    const y1 = y0 + edges[e + 3];
    if (edges[e + 3] === 0) continue;
    if (Math.max(y0, y1) >= low - spare && Math.min(y0, y1) <= high + spare) list.push(e / EDGE);
  }
  return list;
}

function parity(edges: Float64Array, list: readonly number[], x: number, y: number): boolean {
  let inside = false;
  for (const k of list) {
    const e = EDGE * k;
    const startAbove = edges[e + 1] > y;
    if (startAbove !== edges[e + 5] > y) {
      const across = edges[e + 2] * (y - edges[e + 1]) - edges[e + 3] * (x - edges[e]);
      if (across > 0 !== startAbove) inside = !inside;
    }
  }
  return inside;
}

function distanceToEdge(edges: Float64Array, e: number, x: number, y: number): number {
  const px = x - edges[e];
  const py = y - edges[e + 1];
  const t = (px * edges[e + 2] + py * edges[e + 3]) * edges[e + 4];
  const s = t < 0 ? 0 : t > 1 ? 1 : t;
  const qx = px - s * edges[e + 2];
  const qy = py - s * edges[e + 3];
  return Math.sqrt(qx * qx + qy * qy);
}

function sharedBytes(size: number): ArrayBufferLike {
  return typeof SharedArrayBuffer === "undefined" ? new ArrayBuffer(size) : new SharedArrayBuffer(size);
}

function sharedInts(size: number): Int32Array {
  return new Int32Array(sharedBytes(4 * size));
}

function sharedReals(size: number): Float64Array {
  return new Float64Array(sharedBytes(8 * size));
}
