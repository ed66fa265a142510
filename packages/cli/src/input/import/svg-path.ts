import type { Point, Vertex } from "@keelcut/geometry";
import svgpath from "svgpath";
import { type Affine, identity } from "./affine.js";
import { bezierCurve, type Pen, pen } from "./pen.js";
import { arcTo } from "./svg-arc.js";

/** One subpath in millimetres. */
export interface SubPath {
  /** When closed, the last vertex is not the first again. */
  readonly vertices: readonly Vertex[];
  readonly closed: boolean;
  readonly fitted: boolean;
}

type Command = readonly [string, ...number[]];

/** What svgpath has and its types do not say. */
interface ParsedPath {
  readonly err: string;
  readonly segments: readonly Command[];
}

/** Ends closer than this part of a millimetre are one point: closing lines of no length are left out. */
const SAME = 1e-7;

/**
 * The subpaths of path data under a map to millimetres; circular arcs stay arcs, other curves become arcs within
 * `fitError`. Returns the reason as a string when the data is malformed anywhere.
 */
export function readPathData(data: string, toMillimetres: Affine, fitError: number): SubPath[] | string {
  const path = svgpath(data);
  // svgpath keeps what it read before an error, so the error must be asked for.
  const fault = (path as unknown as ParsedPath).err;
  if (fault !== "" && fault !== undefined) return fault;
  path
    .matrix([...toMillimetres])
    .abs()
    .unshort();
  const commands: Command[] = [];
  path.iterate((segment) => {
    commands.push(segment as Command);
  });
  if (commands.some((command) => command.slice(1).some((value) => !Number.isFinite(Number(value))))) {
    return "a number out of range";
  }
  return split(commands).map((part) => follow(part, fitError));
}

/** From one M to before the next; after Z without M a new part starts where the last one did. */
function split(commands: readonly Command[]): Command[][] {
  const parts: Command[][] = [];
  let open = false;
  for (const command of commands) {
    if (command[0] === "M") parts.push([command]);
    else {
      const last = parts.at(-1);
      if (last === undefined) continue;
      if (open) last.push(command);
      else parts.push([last[0] ?? command, command]);
    }
    open = command[0] !== "Z";
  }
  // A move that is closed at once draws nothing.
  return parts.filter((part) => part.some(([name]) => name !== "M" && name !== "Z"));
}

function follow(commands: readonly Command[], fitError: number): SubPath {
  const line = pen(identity, fitError);
  let here: Point = { x: 0, y: 0 };
  let closed = false;
  for (const [name, ...values] of commands) {
    const numbers = values.map(Number);
    if (name === "Z") closed = true;
    else here = step(line, name, numbers, here);
  }
  const { vertices, fitted } = line.done();
  return { vertices: closed ? withoutRepeat(vertices) : vertices, closed, fitted };
}

function step(line: Pen, name: string, numbers: readonly number[], here: Point): Point {
  const points = pairs(numbers);
  const last = points.at(-1) ?? here;
  switch (name) {
    case "M":
      line.moveTo(last);
      return last;
    case "H": {
      const to = { x: numbers[0] ?? here.x, y: here.y };
      line.lineTo(to);
      return to;
    }
    case "V": {
      const to = { x: here.x, y: numbers[0] ?? here.y };
      line.lineTo(to);
      return to;
    }
    case "C":
    case "Q":
      line.curveTo(bezierCurve([here, ...points]));
      return last;
    case "A": {
      const [rx = 0, ry = 0, turned = 0, large = 0, sweep = 0, x = 0, y = 0] = numbers;
      arcTo(line, here, { x, y }, { rx, ry, degrees: turned, large: large !== 0, positive: sweep !== 0 });
      return { x, y };
    }
    default:
      line.lineTo(last);
      return last;
  }
}

function pairs(numbers: readonly number[]): Point[] {
  const points: Point[] = [];
  for (let i = 0; i + 1 < numbers.length; i += 2) points.push({ x: numbers[i] ?? 0, y: numbers[i + 1] ?? 0 });
  return points;
}

/** A closed path that was drawn back to its start holds that point twice. */
function withoutRepeat(vertices: readonly Vertex[]): readonly Vertex[] {
  const first = vertices[0];
  const last = vertices.at(-1);
  if (first === undefined || last === undefined || vertices.length < 3) return vertices;
  return Math.hypot(first.x - last.x, first.y - last.y) <= SAME ? vertices.slice(0, -1) : vertices;
}
