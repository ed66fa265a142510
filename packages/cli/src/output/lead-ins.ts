import {
  asCircle,
  type Box,
  bounds,
  type Contour,
  contourDistance,
  type Finding,
  locate,
  type Path,
  type Point,
  pointDistance,
  segments,
  signedArea,
  tangentAt,
  type Vertex,
} from "@keelcut/geometry";
import type { CutLine } from "./cut-lines.js";
import type { LeadInWish, SizeState } from "./drawing.js";

/** A cut line that begins where its lead-in ends. */
export interface Led {
  readonly line: CutLine;
  /** Absent when there is no room for one, or when bridges interrupt the line. */
  readonly leadIn?: Path;
}

/** What lies around the lines of a sheet. */
export interface LeadInSurroundings {
  readonly outline: Contour;
  readonly keepOuts: readonly Contour[];
}

/** Waste left between a cut along a lead-in and every plate and clamp, mm. */
const CLEAR = 1;

/** The same towards the own line, where the stroke begins, mm: beyond that it lies in waste. */
const OWN = 0.1;

/** Strokes for one drawing: how long, and how far from what. All mm. */
interface Room {
  readonly lengths: readonly number[];
  /** Least distance of a stroke's start from its own line. */
  readonly own: number;
  /** From every other cut line. */
  readonly lines: number;
  /** From the stock's edge and from keep-outs. */
  readonly around: number;
}

/** On lines of nominal size the cut reaches half a kerf beyond the stroke; compensated lines already lie that far out. */
function roomFor({ length, cutRadius }: LeadInWish, size: SizeState): Room {
  const radius = size.state === "nominal" ? cutRadius : 0;
  const shortest = leastLeadIn(cutRadius, size);
  const lengths: number[] = [];
  for (let long = length; long > shortest; long /= 2) lengths.push(long);
  if (shortest <= length) lengths.push(shortest);
  return { lengths, own: radius + OWN, lines: CLEAR + radius, around: CLEAR + cutRadius };
}

/** Shorter strokes show nothing, or notch the plate where they begin; mm. */
export function leastLeadIn(cutRadius: number, size: SizeState): number {
  return size.state === "nominal" ? CLEAR + cutRadius : CLEAR;
}

/**
 * For each closed line a short stroke through waste material, square to the line, that ends at one of its corners or
 * joints, or where none of them has room, in the middle of a straight side; a round hole's begins at its middle at the
 * farthest. The line is turned so that it begins there. The first place with room is taken, the longest stroke first, so
 * that a cut along it takes nothing from any plate and stays clear of clamps and of the stock's edge.
 */
export function withLeadIns(
  lines: readonly CutLine[],
  wish: LeadInWish,
  size: SizeState,
  around?: LeadInSurroundings,
): Led[] {
  const room = roomFor(wish, size);
  const boxed = lines.map((line) => ({ line, box: bounds(line.contour) }));
  return lines.map((line) => {
    if (line.bridges.length > 0) return { line };
    const own = boxed.find((each) => each.line === line);
    const near = boxed
      .filter(
        (each) => own !== undefined && each !== own && boxesNear(each.box, own.box, wish.length + room.lines),
      )
      .map((each) => each.line.contour);
    for (const beginnings of [corners(line.contour), middles(line.contour)]) {
      for (const long of room.lengths) {
        for (const { contour, start } of beginnings) {
          const leadIn = strokeTo(contour, start, long);
          if (leadIn !== undefined && isFree(leadIn, contour, near, room, around)) {
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
export function leadInFindings(
  led: readonly Led[],
  place: string,
  { cutRadius }: LeadInWish,
  size: SizeState,
): Finding[] {
  const without = led.filter(({ line, leadIn }) => leadIn === undefined && line.bridges.length === 0).length;
  if (without === 0) return [];
  return [
    {
      id: "files.lead-in-left-out",
      severity: "note",
      place,
      message: `${without} of ${led.length} cut lines have no lead-in mark: at their corners and in the middle of their sides no stroke of ${leastLeadIn(cutRadius, size)} mm or more has room in the waste for the cut along it`,
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
  const long = circle !== undefined && isOpening(contour) ? Math.min(length, circle.radius) : length;
  const pieces = segments(contour);
  const leaving = pieces[index];
  const arriving = pieces[(index + pieces.length - 1) % pieces.length];
  if (leaving === undefined || arriving === undefined) return undefined;
  const [a, b] = [tangentAt(arriving, 1), tangentAt(leaving, 0)];
  const along = { x: a.x + b.x, y: a.y + b.y };
  const size = Math.hypot(along.x, along.y);
  if (size < 0.1) return undefined;
  const { x, y } = leaving.from;
  const start = { x: x + (along.y / size) * long, y: y - (along.x / size) * long };
  return { vertices: [vertex(start), vertex({ x, y })], closed: false };
}

/** Outlines run counter-clockwise, openings clockwise. */
function isOpening(contour: Contour): boolean {
  return signedArea(contour) < 0;
}

function isFree(
  leadIn: Path,
  own: Contour,
  others: readonly Contour[],
  room: Room,
  around: LeadInSurroundings | undefined,
): boolean {
  const [start, end] = leadIn.vertices;
  if (start === undefined || end === undefined) return false;
  const length = Math.hypot(end.x - start.x, end.y - start.y);
  // In the waste: within an opening, outside an outline.
  if (locate(own, start) !== (isOpening(own) ? "inside" : "outside")) return false;
  if (pointDistance(own, start) < room.own) return false;
  for (const t of [0, 0.25, 0.5, 0.75]) {
    const at = { x: start.x + t * (end.x - start.x), y: start.y + t * (end.y - start.y) };
    // Square to the own line the way to it is straight; less means that the line comes back.
    if (pointDistance(own, at) < 0.6 * (1 - t) * length) return false;
    if (at.x < 0 || at.y < 0) return false;
  }
  // A closed curve there and back: distances are then exact all along, not at some of its points.
  const stroke = [start, end];
  if (others.some((other) => contourDistance(other, stroke) < room.lines)) return false;
  return around === undefined || isClear(stroke, start, around, room.around);
}

function isClear(
  stroke: Contour,
  start: Point,
  { outline, keepOuts }: LeadInSurroundings,
  distance: number,
): boolean {
  if (locate(outline, start) !== "inside" || contourDistance(outline, stroke) < distance) return false;
  return keepOuts.every(
    (keepOut) => locate(keepOut, start) === "outside" && contourDistance(keepOut, stroke) >= distance,
  );
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
