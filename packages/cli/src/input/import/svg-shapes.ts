import type { INode } from "svgson";
import type { Affine } from "./affine.js";
import { CurveFault, ellipseCurve, type Pen, pen } from "./pen.js";
import { type Length, parseLength, parseNumbers, unitMillimetres } from "./svg-numbers.js";
import { readPathData, type SubPath } from "./svg-path.js";

/** Elements that draw. */
export const drawn: readonly string[] = ["path", "rect", "circle", "ellipse", "line", "polyline", "polygon"];

/**
 * The lines one element draws, in millimetres, or the reason why it cannot be read.
 *
 * `toMillimetres` maps the element's user units.
 */
export function readElement(node: INode, toMillimetres: Affine, fitError: number): SubPath[] | string {
  try {
    return drawElement(node, toMillimetres, fitError);
  } catch (fault) {
    if (fault instanceof CurveFault) return fault.message;
    throw fault;
  }
}

function drawElement(node: INode, toMillimetres: Affine, fitError: number): SubPath[] | string {
  if (node.name === "path") return readPathData(node.attributes["d"] ?? "", toMillimetres, fitError);
  if (node.name === "polyline" || node.name === "polygon") return readPoints(node, toMillimetres, fitError);
  const lengths = readLengths(node);
  if (typeof lengths === "string") return lengths;
  const line = pen(toMillimetres, fitError);
  const closed = drawBasic(node.name, lengths, line);
  if (typeof closed === "string") return closed;
  const { vertices, fitted } = line.done();
  if (vertices.length === 0) return [];
  return [{ vertices: closed ? vertices.slice(0, -1) : vertices, closed, fitted }];
}

type Lengths = Readonly<Record<string, number | undefined>>;

/** In user units; a length with a unit is a number of px in the user's own units (SVG 1.1, section 7.10). */
function readLengths(node: INode): Lengths | string {
  const found: Record<string, number> = {};
  for (const name of ["x", "y", "width", "height", "rx", "ry", "cx", "cy", "r", "x1", "y1", "x2", "y2"]) {
    const text = node.attributes[name];
    if (text === undefined || text === "auto") continue;
    const length = parseLength(text);
    if (length === undefined) return `${name}="${text}" is no length`;
    found[name] = userUnits(length);
  }
  return found;
}

function userUnits({ value, unit }: Length): number {
  return unit === "" ? value : (value * (unitMillimetres[unit] ?? 1)) / (unitMillimetres["px"] ?? 1);
}

/** Returns whether the outline is closed, or why it cannot be drawn. Nothing is drawn where SVG draws nothing. */
function drawBasic(name: string, lengths: Lengths, line: Pen): boolean | string {
  const { x = 0, y = 0, width = 0, height = 0, cx = 0, cy = 0, r = 0 } = lengths;
  switch (name) {
    case "line":
      line.moveTo({ x: lengths["x1"] ?? 0, y: lengths["y1"] ?? 0 });
      line.lineTo({ x: lengths["x2"] ?? 0, y: lengths["y2"] ?? 0 });
      return false;
    case "circle":
      if (r < 0) return `r="${r}" is negative`;
      if (r > 0) drawEllipse(line, cx, cy, r, r);
      return true;
    case "ellipse": {
      const rx = lengths["rx"] ?? lengths["ry"] ?? 0;
      const ry = lengths["ry"] ?? lengths["rx"] ?? 0;
      if (rx < 0 || ry < 0) return "a radius is negative";
      if (rx > 0 && ry > 0) drawEllipse(line, cx, cy, rx, ry);
      return true;
    }
    default: {
      if (width < 0 || height < 0) return "a side is negative";
      const rx = lengths["rx"] ?? lengths["ry"] ?? 0;
      const ry = lengths["ry"] ?? lengths["rx"] ?? 0;
      if (rx < 0 || ry < 0) return "a radius is negative";
      if (width > 0 && height > 0) {
        drawRectangle(line, x, y, width, height, Math.min(rx, width / 2), Math.min(ry, height / 2));
      }
      return true;
    }
  }
}

function drawEllipse(line: Pen, cx: number, cy: number, rx: number, ry: number): void {
  line.moveTo({ x: cx + rx, y: cy });
  if (rx === ry) {
    line.arcTo(1, { x: cx - rx, y: cy });
    line.arcTo(1, { x: cx + rx, y: cy });
    return;
  }
  for (let quarter = 0; quarter < 4; quarter++) corner(line, cx, cy, rx, ry, (quarter * Math.PI) / 2);
}

/** A quarter of an ellipse, towards larger angles. */
function corner(line: Pen, cx: number, cy: number, rx: number, ry: number, start: number): void {
  line.curveTo(ellipseCurve({ x: cx, y: cy }, { x: rx, y: 0 }, { x: 0, y: ry }, start, Math.PI / 2));
}

function drawRectangle(line: Pen, x: number, y: number, w: number, h: number, rx: number, ry: number): void {
  const [right, bottom] = [x + w, y + h];
  const side = (toX: number, toY: number): void => line.lineTo({ x: toX, y: toY });
  const round = (cx: number, cy: number, start: number, toX: number, toY: number): void => {
    if (rx === 0 || ry === 0) return;
    if (rx === ry) line.arcTo(Math.tan(Math.PI / 8), { x: toX, y: toY });
    else corner(line, cx, cy, rx, ry, start);
  };
  const [dx, dy] = rx === 0 || ry === 0 ? [0, 0] : [rx, ry];
  line.moveTo({ x: x + dx, y });
  if (w > 2 * dx) side(right - dx, y);
  round(right - dx, y + dy, -Math.PI / 2, right, y + dy);
  if (h > 2 * dy) side(right, bottom - dy);
  round(right - dx, bottom - dy, 0, right - dx, bottom);
  if (w > 2 * dx) side(x + dx, bottom);
  round(x + dx, bottom - dy, Math.PI / 2, x, bottom - dy);
  if (h > 2 * dy) side(x, y + dy);
  round(x + dx, y + dy, Math.PI, x + dx, y);
}

function readPoints(node: INode, toMillimetres: Affine, fitError: number): SubPath[] | string {
  const numbers = parseNumbers(node.attributes["points"] ?? "");
  if (numbers === undefined || numbers.length % 2 !== 0) return "its points are no list of pairs";
  if (numbers.length < 4) return [];
  const line = pen(toMillimetres, fitError);
  line.moveTo({ x: numbers[0] ?? 0, y: numbers[1] ?? 0 });
  for (let i = 2; i < numbers.length; i += 2) line.lineTo({ x: numbers[i] ?? 0, y: numbers[i + 1] ?? 0 });
  return [{ vertices: line.done().vertices, closed: node.name === "polygon", fitted: false }];
}
