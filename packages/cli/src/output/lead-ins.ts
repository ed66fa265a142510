import {
  asCircle,
  type Box,
  bounds,
  type Contour,
  type Finding,
  locate,
  type Path,
  type Point,
  pointDistance,
  segments,
  tangentAt,
  type Vertex,
} from "@keelcut/geometry";
import type { CutLine } from "./cut-lines.js";

/** A cut line that begins where its lead-in ends. */
export interface Led {
  readonly line: CutLine;
  /** Absent when there is no room for one, or when bridges interrupt the line. */
  readonly leadIn?: Path;
}

/** Least distance of a lead-in from every cut line but its own, mm. */
const CLEAR = 1;
/** Shorter ones show nothing, mm. */
const SHORTEST = 1;

/**
 * For each closed line a short stroke through waste material, square to the line, that ends at one of its corners or
 * joints, or where none of them has room, in the middle of a straight side; the line is turned so that it begins there.
 * The first place with room is taken, the longest stroke first, so that it never comes near a plate, another cut or the
 * edge of the stock.
 */
export function withLeadIns(lines: readonly CutLine[], length: number, stock?: Contour): Led[] {
  const boxed = lines.map((line) => ({ line, box: bounds(line.contour) }));
  return lines.map((line) => {
    if (line.bridges.length > 0) return { line };
    const own = boxed.find((each) => each.line === line);
    const near = boxed
      .filter((each) => own !== undefined && each !== own && boxesNear(each.box, own.box, length + CLEAR))
      .map((each) => each.line.contour);
    for (const beginnings of [corners(line.contour), middles(line.contour)]) {
      for (let long = length; long >= SHORTEST; long /= 2) {
        for (const { contour, start } of beginnings) {
          const leadIn = strokeTo(contour, start, long);
          if (leadIn !== undefined && isFree(leadIn, contour, near, stock)) {
            return { line: { ...line, contour: startingAt(contour, start) }, leadIn };
          }
        }
      }
    }
    return { line };
  });
}

/** A contour and the vertex it may begin at. */
interface Beginning {
  readonly contour: Contour;
  readonly start: number;
}

function corners(contour: Contour): Beginning[] {
  return contour.map((_, start) => ({ contour, start }));
}

/** The middles of straight sides, as vertices of their own. */
function middles(contour: Contour): Beginning[] {
  return segments(contour).flatMap(({ kind, from, to }, index) => {
    if (kind === "arc") return [];
    const middle = vertex({ x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 });
    return [{ contour: contour.toSpliced(index + 1, 0, middle), start: index + 1 }];
  });
}

/** Says how many lines have no room for a lead-in; those that bridges interrupt begin at a bridge and need none. */
export function leadInFindings(led: readonly Led[], place: string): Finding[] {
  const without = led.filter(({ line, leadIn }) => leadIn === undefined && line.bridges.length === 0).length;
  if (without === 0) return [];
  return [
    {
      id: "files.lead-in-left-out",
      severity: "note",
      place,
      message: `${without} of ${led.length} cut lines have no lead-in mark: at their corners and in the middle of their sides no stroke of ${SHORTEST} mm or more lies clear in the waste`,
      measured: without,
      unit: "lines",
      why: "a cutter that enters on the line itself leaves a notch in the plate",
      source: "common practice of cutting shops",
    },
  ];
}

/** The stroke to one vertex. Material lies on the left of outlines and openings alike, waste on the right. */
function strokeTo(contour: Contour, index: number, length: number): Path | undefined {
  const circle = asCircle(contour);
  if (circle !== undefined && length > circle.radius * 0.8 && isOpening(contour)) return undefined;
  const pieces = segments(contour);
  const leaving = pieces[index];
  const arriving = pieces[(index + pieces.length - 1) % pieces.length];
  if (leaving === undefined || arriving === undefined) return undefined;
  const [a, b] = [tangentAt(arriving, 1), tangentAt(leaving, 0)];
  const along = { x: a.x + b.x, y: a.y + b.y };
  const size = Math.hypot(along.x, along.y);
  if (size < 0.1) return undefined;
  const { x, y } = leaving.from;
  const start = { x: x + (along.y / size) * length, y: y - (along.x / size) * length };
  return { vertices: [vertex(start), vertex({ x, y })], closed: false };
}

function isOpening(contour: Contour): boolean {
  return contour.some((each) => each.bulge < 0);
}

function isFree(leadIn: Path, own: Contour, others: readonly Contour[], stock: Contour | undefined): boolean {
  const [start, end] = leadIn.vertices;
  if (start === undefined || end === undefined) return false;
  const length = Math.hypot(end.x - start.x, end.y - start.y);
  for (const t of [0, 0.25, 0.5, 0.75]) {
    const at = { x: start.x + t * (end.x - start.x), y: start.y + t * (end.y - start.y) };
    // Square to the own line the way to it is straight; less means that the line comes back.
    if (pointDistance(own, at) < 0.6 * (1 - t) * length) return false;
    if (others.some((other) => pointDistance(other, at) < CLEAR)) return false;
    if (at.x < 0 || at.y < 0) return false;
    if (stock !== undefined && (locate(stock, at) !== "inside" || pointDistance(stock, at) < CLEAR))
      return false;
  }
  return others.every((other) => pointDistance(other, end) >= CLEAR);
}

function startingAt(contour: Contour, index: number): Contour {
  return [...contour.slice(index), ...contour.slice(0, index)];
}

function vertex({ x, y }: Point): Vertex {
  return { x, y, bulge: 0 };
}

function boxesNear(a: Box, b: Box, reach: number): boolean {
  return (
    a.minX <= b.maxX + reach &&
    b.minX <= a.maxX + reach &&
    a.minY <= b.maxY + reach &&
    b.minY <= a.maxY + reach
  );
}
