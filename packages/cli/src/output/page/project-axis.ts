import type { AxisPart, Vector } from "@keelcut/geometry";
import { coordinate } from "./path-data.js";
import { dot, onPaper, type Projected, scale, subtract, type View } from "./view.js";

/** Sine below which an axis counts as seen along itself or across. */
const ALIGNED = 1e-9;

/** A rod or pipe as a view shows it: circles along its axis, a rectangle across it, else its outline with the near end. */
export function projectAxis(part: AxisPart, view: View): Projected {
  const along = subtract(part.to, part.from);
  const length = Math.hypot(...along);
  if (!(length > 0)) throw new RangeError(`${part.kind} ${part.place} has no length`);
  const axis = scale(along, 1 / length);
  const r = part.diameter / 2;
  const [minX, maxX] = reach(part, axis, r, view.right);
  const [minY, maxY] = reach(part, axis, r, view.up);
  const [back, front] = reach(part, axis, r, view.toward);
  const common = { depth: (back + front) / 2, box: { minX, minY, maxX, maxY } };

  // From the far end to the near one.
  const lean = dot(axis, view.toward);
  const [far, near] = lean >= 0 ? [part.from, part.to] : [part.to, part.from];
  const [ax, ay] = onPaper(far, view);
  const [bx, by] = onPaper(near, view);
  const flat = Math.hypot(bx - ax, by - ay);
  if (flat <= ALIGNED * length) {
    const bore = part.bore === undefined ? "" : ringData(ax, ay, part.bore / 2, part.bore / 2, 0);
    return { ...common, paths: [{ data: ringData(ax, ay, r, r, 0) + bore }], lines: crossData(ax, ay, r) };
  }
  const [ex, ey] = [(bx - ax) / flat, (by - ay) / flat];
  const depth = Math.abs(lean);
  const turn = (Math.atan2(-ey, ex) * 180) / Math.PI;
  const paths = [{ data: barrelData([ax, ay], [bx, by], [ex, ey], r, depth, turn) }];
  if (depth > ALIGNED) {
    const bore =
      part.bore === undefined ? "" : ringData(bx, by, (part.bore / 2) * depth, part.bore / 2, turn);
    paths.push({ data: ringData(bx, by, r * depth, r, turn) + bore });
  }
  const over = Math.min(6, r * 0.4);
  return {
    ...common,
    paths,
    lines: lineData(ax - ex * over, ay - ey * over, bx + ex * over, by + ey * over),
  };
}

/** How far a cylinder reaches along a unit direction: a disc of radius r across an axis reaches r sin(angle between them). */
function reach(part: AxisPart, axis: Vector, r: number, direction: Vector): [number, number] {
  const rim = r * Math.sqrt(Math.max(0, 1 - dot(axis, direction) ** 2));
  const ends = [dot(part.from, direction), dot(part.to, direction)];
  return [Math.min(...ends) - rim, Math.max(...ends) + rim];
}

type Pair = readonly [number, number];

/** The outline of a cylinder: two straight sides and the outer halves of the ellipses at its ends. */
function barrelData(
  [ax, ay]: Pair,
  [bx, by]: Pair,
  [ex, ey]: Pair,
  r: number,
  depth: number,
  turn: number,
): string {
  const [nx, ny] = [-ey * r, ex * r];
  const at = (x: number, y: number): string => `${coordinate(x)} ${coordinate(-y)}`;
  const half = depth > ALIGNED ? `A${coordinate(r * depth)} ${coordinate(r)} ${coordinate(turn)} 0 1 ` : "L";
  return `M${at(ax + nx, ay + ny)}L${at(bx + nx, by + ny)}${half}${at(bx - nx, by - ny)}L${at(ax - nx, ay - ny)}${half}${at(ax + nx, ay + ny)}Z`;
}

/** A closed ellipse with semi-axis `a` along the axis's direction on paper (`turn`, degrees clockwise) and `b` across it. */
function ringData(x: number, y: number, a: number, b: number, turn: number): string {
  const radians = (-turn * Math.PI) / 180;
  const [dx, dy] = [-Math.sin(radians) * b, Math.cos(radians) * b];
  const from = `${coordinate(x + dx)} ${coordinate(-(y + dy))}`;
  const to = `${coordinate(x - dx)} ${coordinate(-(y - dy))}`;
  const radii = `${coordinate(a)} ${coordinate(b)} ${coordinate(turn)}`;
  return `M${from}A${radii} 0 1 ${to}A${radii} 0 1 ${from}Z`;
}

function crossData(x: number, y: number, r: number): string {
  const over = r + Math.min(6, r * 0.4);
  return lineData(x - over, y, x + over, y) + lineData(x, y - over, x, y + over);
}

function lineData(x1: number, y1: number, x2: number, y2: number): string {
  return `M${coordinate(x1)} ${coordinate(-y1)}L${coordinate(x2)} ${coordinate(-y2)}`;
}
