import { type DepthFields, EDGE, OUTSIDE } from "./depth-field.js";
import { extentOf, type Ring } from "./polygon.js";

/** Builds the fields of regions given as rings in the unit of the search. Cost: cells * edges. */
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
