import type { Finding, Point, Vertex } from "@keelcut/geometry";
import { importFinding, type ReadShape } from "./read-file.js";

/** A closed contour and where its parts stand in the file. */
export interface ReadContour {
  readonly layer: string;
  readonly place: string;
  readonly vertices: readonly Vertex[];
}

export interface Joined {
  readonly contours: readonly ReadContour[];
  /** Open lines whose ends meet nothing. */
  readonly open: readonly ReadShape[];
  readonly findings: readonly Finding[];
}

/**
 * Closed shapes as they are; open ones chained where exactly two ends lie within `tolerance` (mm) of each other.
 * Every gap closed, every loose end and every point where more than two lines meet is a finding.
 */
export function joinEnds(shapes: readonly ReadShape[], tolerance: number): Joined {
  const findings: Finding[] = [];
  const contours: ReadContour[] = [];
  const loose: ReadShape[] = [];
  for (const shape of shapes) {
    if (shape.closed) contours.push(shape);
    else if (shape.vertices.length >= 2) loose.push(shape);
  }
  const ends = new EndIndex(loose, tolerance);
  const used = new Set<number>();
  const open: ReadShape[] = [];
  // Chains with loose ends first, so that what remains is closed.
  const starts = [...loose.keys()].sort((a, b) => ends.looseEnds(b) - ends.looseEnds(a) || a - b);
  for (const start of starts) {
    if (used.has(start)) continue;
    const chain = follow(start, loose, ends, used, findings);
    if (chain.closed) contours.push(closeChain(chain, findings));
    else {
      open.push(chain.shape);
      findings.push(openFinding(chain, tolerance));
    }
  }
  return { contours, open, findings };
}

interface Chain {
  readonly shape: ReadShape;
  readonly closed: boolean;
  readonly parts: number;
  readonly largestGap: number;
}

/** Ends that coincide, mm: whatever else lies within the tolerance is then no business of theirs. */
const COINCIDING = 1e-5;

/**
 * Which ends of which shapes lie at the same point, by a grid of the tolerance's size. Ends that coincide are joined before
 * ends that are merely near: the far end of a line shorter than the tolerance is near too.
 */
class EndIndex {
  readonly #cells = new Map<string, { shape: number; end: 0 | 1; point: Point }[]>();
  readonly #shapes: readonly ReadShape[];
  readonly #tolerance: number;

  constructor(shapes: readonly ReadShape[], tolerance: number) {
    this.#shapes = shapes;
    this.#tolerance = tolerance;
    shapes.forEach((shape, index) => {
      for (const end of [0, 1] as const) {
        const point = endOf(shape, end);
        const key = this.#key(Math.floor(point.x / tolerance), Math.floor(point.y / tolerance));
        this.#cells.set(key, [...(this.#cells.get(key) ?? []), { shape: index, end, point }]);
      }
    });
  }

  /** Other ends near an end of a shape. */
  near(shape: number, end: 0 | 1): { shape: number; end: 0 | 1 }[] {
    const of = this.#shapes[shape];
    if (of === undefined) return [];
    const at = endOf(of, end);
    const [column, row] = [Math.floor(at.x / this.#tolerance), Math.floor(at.y / this.#tolerance)];
    const found: { shape: number; end: 0 | 1; gap: number }[] = [];
    for (let i = column - 1; i <= column + 1; i++) {
      for (let j = row - 1; j <= row + 1; j++) {
        for (const other of this.#cells.get(this.#key(i, j)) ?? []) {
          const same = other.shape === shape && other.end === end;
          const gap = gapBetween(at, other.point);
          if (!same && gap <= this.#tolerance) found.push({ ...other, gap });
        }
      }
    }
    const coinciding = found.filter(({ gap }) => gap <= COINCIDING);
    return coinciding.length > 0 ? coinciding : found;
  }

  looseEnds(shape: number): number {
    return ([0, 1] as const).filter((end) => this.near(shape, end).length !== 1).length;
  }

  #key(column: number, row: number): string {
    return `${column} ${row}`;
  }
}

function follow(
  start: number,
  shapes: readonly ReadShape[],
  ends: EndIndex,
  used: Set<number>,
  findings: Finding[],
): Chain {
  // Walk from the loose end, when there is one.
  let entry: 0 | 1 = ends.near(start, 0).length !== 1 ? 0 : ends.near(start, 1).length !== 1 ? 1 : 0;
  const firstEntry = entry;
  let current = start;
  const vertices: Vertex[] = [];
  let parts = 0;
  let largestGap = 0;
  for (;;) {
    const shape = shapes[current];
    if (shape === undefined) break;
    used.add(current);
    parts += 1;
    const run = entry === 0 ? shape.vertices : backwards(shape.vertices);
    const joint = vertices.pop();
    const first = run[0];
    if (joint !== undefined && first !== undefined)
      largestGap = Math.max(largestGap, gapBetween(joint, first));
    for (const vertex of run) vertices.push(vertex);
    const exit = entry === 0 ? 1 : 0;
    const next = ends.near(current, exit);
    if (next.length > 1) findings.push(branchFinding(shape, vertices.at(-1)));
    const only = next.length === 1 ? next[0] : undefined;
    if (only !== undefined && only.shape === start && only.end === firstEntry) {
      return { shape: chained(shapes[start], vertices, parts), closed: true, parts, largestGap };
    }
    if (only === undefined || used.has(only.shape) || ends.near(only.shape, only.end).length !== 1) break;
    current = only.shape;
    entry = only.end;
  }
  return { shape: chained(shapes[start], vertices, parts), closed: false, parts, largestGap };
}

function chained(first: ReadShape | undefined, vertices: readonly Vertex[], parts: number): ReadShape {
  const place = first?.place ?? "";
  return {
    layer: first?.layer ?? "",
    place: parts > 1 ? `${place} and ${parts - 1} joined to it` : place,
    source: first?.source ?? "",
    vertices,
    closed: false,
  };
}

/** The last vertex is the first again: it goes, whatever the gap. */
function closeChain(chain: Chain, findings: Finding[]): ReadContour {
  const { shape } = chain;
  const first = shape.vertices[0];
  const last = shape.vertices.at(-1);
  const gap = first === undefined || last === undefined ? 0 : gapBetween(first, last);
  const largest = Math.max(gap, chain.largestGap);
  findings.push({
    ...importFinding(
      "joined",
      "note",
      shape.place,
      `${chain.parts} open ${chain.parts === 1 ? "line" : "lines"} closed to a contour, largest gap ${largest.toPrecision(3)} mm`,
    ),
    measured: largest,
  });
  return { layer: shape.layer, place: shape.place, vertices: shape.vertices.slice(0, -1) };
}

function openFinding({ shape }: Chain, tolerance: number): Finding {
  const from = shape.vertices[0];
  const to = shape.vertices.at(-1);
  const gap = from === undefined || to === undefined ? 0 : gapBetween(from, to);
  return {
    ...importFinding(
      "open",
      "error",
      shape.place,
      `an open line from ${shown(from)} to ${shown(to)}: its ends must meet within ${tolerance} mm to be a contour`,
    ),
    measured: gap,
    limit: tolerance,
  };
}

function branchFinding(shape: ReadShape, at: Point | undefined): Finding {
  return importFinding("branch", "error", shape.place, `more than two lines meet at ${shown(at)}`);
}

function shown(point: Point | undefined): string {
  return point === undefined ? "nowhere" : `x ${point.x.toFixed(3)}, y ${point.y.toFixed(3)}`;
}

function endOf(shape: ReadShape, end: 0 | 1): Point {
  const point = end === 0 ? shape.vertices[0] : shape.vertices.at(-1);
  return point ?? { x: 0, y: 0 };
}

function gapBetween(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

function backwards(vertices: readonly Vertex[]): Vertex[] {
  return vertices
    .map((vertex, index) => {
      const before = vertices[index - 1]?.bulge ?? 0;
      return { x: vertex.x, y: vertex.y, bulge: before === 0 ? 0 : -before };
    })
    .reverse();
}
