import { type Path, type Point, pathSegments, type Segment } from "@keelcut/geometry";

/** What a path is drawn with: the part of a PDF document that takes lines, in points, y down. */
export interface PdfCanvas {
  moveTo(x: number, y: number): unknown;
  lineTo(x: number, y: number): unknown;
  bezierCurveTo(x1: number, y1: number, x2: number, y2: number, x: number, y: number): unknown;
  closePath(): unknown;
}

/** PDF points per millimetre. */
export const POINTS = 72 / 25.4;
/** Arcs are drawn by Bezier curves of at most this sweep: the error is then below 1e-6 of the radius. */
const LARGEST_SWEEP = Math.PI / 6;

/** Adds a path to the canvas; `map` takes millimetres of the drawing to points of the page. */
export function tracePath(canvas: PdfCanvas, path: Path, map: (point: Point) => Point): void {
  const pieces = pathSegments(path);
  const start = pieces[0];
  if (start === undefined) return;
  const first = map(start.from);
  canvas.moveTo(first.x, first.y);
  for (const piece of pieces) trace(canvas, piece, map);
  if (path.closed) canvas.closePath();
}

function trace(canvas: PdfCanvas, piece: Segment, map: (point: Point) => Point): void {
  if (piece.kind === "line") {
    const to = map(piece.to);
    canvas.lineTo(to.x, to.y);
    return;
  }
  const { center, radius, startAngle, sweep } = piece;
  const steps = Math.ceil(Math.abs(sweep) / LARGEST_SWEEP - 1e-9);
  const step = sweep / steps;
  // Length of the handles of a cubic that follows an arc: 4/3 tan(sweep / 4) of the radius.
  const reach = (4 / 3) * Math.tan(step / 4) * radius;
  for (let i = 0; i < steps; i++) {
    const [a, b] = [startAngle + i * step, startAngle + (i + 1) * step];
    const from = { x: center.x + radius * Math.cos(a), y: center.y + radius * Math.sin(a) };
    const to = { x: center.x + radius * Math.cos(b), y: center.y + radius * Math.sin(b) };
    const one = map({ x: from.x - reach * Math.sin(a), y: from.y + reach * Math.cos(a) });
    const two = map({ x: to.x + reach * Math.sin(b), y: to.y - reach * Math.cos(b) });
    const end = map(to);
    canvas.bezierCurveTo(one.x, one.y, two.x, two.y, end.x, end.y);
  }
}
