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
 * cell's diagonal. A cell crossed by the boundary also needs to know whether the point is inside: each level row of
 * cells lists the edges that cross it, and the parity of the edges to the right decides, over all rings at once.
 *
 * All fields lie in flat arrays that workers can share. Cost: cells * edges to build; about 10 bytes a cell and edge.
 */
export interface DepthFields {
  /** Six numbers a field: minX, minY, cells per unit in x and in y, width, height. */
  readonly frames: Float64Array;
  /** Four numbers a field: columns, rows, first cell, first row. */
  readonly tables: Int32Array;
  /** Per cell, where its list begins in `lists`; one more at the end of each field. */
  readonly cellStart: Int32Array;
  /** Per cell: 0 outside, 1 inside, 2 crossed by the boundary. */
  readonly cellKind: Uint8Array;
  /** Per row of cells, where its list begins in `lists`; one more at the end of each field. */
  readonly rowStart: Int32Array;
  /** Edges by number. */
  readonly lists: Int32Array;
  /** Six numbers an edge: start x, y, way to its end x, y, 1 / length^2, end y. The region is on the left. */
  readonly edges: Float64Array;
  /** First edge of each field, and the end. */
  readonly edgeStart: Int32Array;
}

/** Cell kinds. */
const OUTSIDE = 0;
const INSIDE = 1;
const MIXED = 2;

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
  const t = 4 * field;
  const row = (v * frames[f + 3]) | 0;
  const cell = tables[t + 2] + row * tables[t] + ((u * frames[f + 2]) | 0);
  const kind = fields.cellKind[cell];
  if (kind === OUTSIDE) return 0;
  const { lists, edges } = fields;
  const end = fields.cellStart[cell + 1];
  let least = Infinity;
  let nearestEdge = 0;
  let along = 0;
  for (let i = fields.cellStart[cell]; i < end; i++) {
    const e = EDGE * lists[i];
    const px = x - edges[e];
    const py = y - edges[e + 1];
    const dx = edges[e + 2];
    const dy = edges[e + 3];
    const s = Math.max(0, Math.min(1, (px * dx + py * dy) * edges[e + 4]));
    const qx = px - s * dx;
    const qy = py - s * dy;
    const d = qx * qx + qy * qy;
    if (d < least) {
      least = d;
      nearestEdge = e;
      along = s;
    }
  }
  if (kind === MIXED) {
    // Nearest to the inside of an edge, the side of that edge decides; nearest to a corner, parity does.
    if (along > 0 && along < 1) {
      const e = nearestEdge;
      if (edges[e + 2] * (y - edges[e + 1]) <= edges[e + 3] * (x - edges[e])) return 0;
    } else if (!isInside(fields, tables[t + 3] + row, x, y)) {
      return 0;
    }
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
  const t = 4 * field;
  const row = (v * frames[f + 3]) | 0;
  const cell = tables[t + 2] + row * tables[t] + ((u * frames[f + 2]) | 0);
  const kind = fields.cellKind[cell];
  if (kind === OUTSIDE) return 0;
  if (kind === MIXED && !isInside(fields, tables[t + 3] + row, x, y)) return 0;
  const end = fields.cellStart[cell + 1];
  let least = Infinity;
  for (let i = fields.cellStart[cell]; i < end; i++) {
    const e = EDGE * lists[i];
    const px = x - edges[e];
    const py = y - edges[e + 1];
    const dx = edges[e + 2];
    const dy = edges[e + 3];
    const s = Math.max(0, Math.min(1, (px * dx + py * dy) * edges[e + 4]));
    const qx = px - s * dx;
    const qy = py - s * dy;
    const d = qx * qx + qy * qy;
    if (d < least) {
      least = d;
      nearest.x = x - qx;
      nearest.y = y - qy;
      nearest.edge = lists[i];
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
    const e = EDGE * lists[i];
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
  const parts = regions.map(buildField);
  const total = (size: (part: FieldParts) => number): number =>
    parts.reduce((sum, part) => sum + size(part), 0);
  const result = {
    frames: sharedReals(6 * parts.length),
    tables: sharedInts(4 * parts.length),
    cellStart: sharedInts(total((part) => part.cellKind.length)),
    cellKind: new Uint8Array(sharedBytes(total((part) => part.cellKind.length))),
    rowStart: sharedInts(total((part) => part.rows + 1)),
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
    result.tables.set([part.columns, part.rows, cell, row], 4 * k);
    result.edgeStart[k] = edge / EDGE;
    for (let i = 0; i < part.lists.length; i++) result.lists[list + i] = part.lists[i] + edge / EDGE;
    for (let i = 0; i < part.cellKind.length; i++) result.cellStart[cell + i] = part.starts[i] + list;
    result.cellKind.set(part.cellKind, cell);
    for (let i = 0; i <= part.rows; i++) {
      result.rowStart[row + i] = part.starts[part.cellKind.length - 1 + i] + list;
    }
    result.edges.set(part.edges, edge);
    cell += part.cellKind.length;
    row += part.rows + 1;
    list += part.lists.length;
    edge += part.edges.length;
  });
  result.edgeStart[parts.length] = edge / EDGE;
  return result;
}

interface FieldParts {
  readonly frame: readonly number[];
  readonly columns: number;
  readonly rows: number;
  readonly cellKind: Uint8Array;
  /** Starts of the cells' lists, then of the rows' lists (where the cells' end), then the end. */
  readonly starts: number[];
  readonly lists: number[];
  readonly edges: Float64Array;
}

function buildField(rings: readonly Ring[]): FieldParts {
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
  const columns = Math.max(8, Math.min(32, Math.round(3 * Math.sqrt(count))));
  const rows = columns;
  // One cell too many: where it begins, the last cell ends.
  const cellKind = new Uint8Array(columns * rows + 1);
  const starts: number[] = [];
  const lists: number[] = [];
  const halfDiagonal = Math.hypot(width / columns, height / rows) / 2;
  const distance = new Float64Array(count);
  const rowEdges = Array.from({ length: rows }, (_, row) =>
    edgesAcross(edges, box.minY + (row * height) / rows, box.minY + ((row + 1) * height) / rows),
  );
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const x = box.minX + ((column + 0.5) * width) / columns;
      const y = box.minY + ((row + 0.5) * height) / rows;
      let least = Infinity;
      for (let e = 0; e < count; e++) {
        distance[e] = distanceToEdge(edges, EDGE * e, x, y);
        if (distance[e] < least) least = distance[e];
      }
      const inside = parity(edges, rowEdges[row], x, y);
      const kind = least <= halfDiagonal * 1.000001 ? MIXED : inside ? INSIDE : OUTSIDE;
      cellKind[row * columns + column] = kind;
      starts.push(lists.length);
      if (kind === OUTSIDE) continue;
      const reach = (least + 2 * halfDiagonal) * 1.000001;
      for (let e = 0; e < count; e++) if (distance[e] <= reach) lists.push(e);
    }
  }
  for (const list of rowEdges) {
    starts.push(lists.length);
    for (const e of list) lists.push(e);
  }
  starts.push(lists.length);
  return {
    frame: [box.minX, box.minY, columns / width, rows / height, width, height],
    columns,
    rows,
    cellKind,
    starts,
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
  const s = Math.max(0, Math.min(1, (px * edges[e + 2] + py * edges[e + 3]) * edges[e + 4]));
  return Math.hypot(px - s * edges[e + 2], py - s * edges[e + 3]);
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
