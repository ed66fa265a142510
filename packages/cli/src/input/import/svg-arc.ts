import type { Point } from "@keelcut/geometry";
import { ellipseCurve, type Pen } from "./pen.js";

/** What an `A` command says beside its end point. */
export interface SvgArc {
  readonly rx: number;
  readonly ry: number;
  /** Angle of the first radius from the x axis, degrees. */
  readonly degrees: number;
  /** More than half the ellipse. */
  readonly large: boolean;
  /** Towards larger angles, from x to y. */
  readonly positive: boolean;
}

/** Draws an `A` command; SVG 1.1, appendix F.6: out-of-range radii, and from end points to a centre. */
export function arcTo(line: Pen, from: Point, to: Point, arc: SvgArc): void {
  const [a, b] = [Math.abs(arc.rx), Math.abs(arc.ry)];
  const chord = Math.hypot(to.x - from.x, to.y - from.y);
  if (chord === 0) return;
  if (a === 0 || b === 0) line.lineTo(to);
  else if (Math.abs(a - b) <= 1e-7 * a) line.arcTo(bulgeOf(chord, (a + b) / 2, arc), to);
  else ellipseTo(line, from, to, { ...arc, rx: a, ry: b });
}

function bulgeOf(chord: number, radius: number, arc: SvgArc): number {
  const half = Math.asin(Math.min(1, chord / (2 * radius)));
  const sweep = arc.large ? 2 * Math.PI - 2 * half : 2 * half;
  return (arc.positive ? 1 : -1) * Math.tan(sweep / 4);
}

function ellipseTo(line: Pen, from: Point, to: Point, arc: SvgArc): void {
  const turned = (arc.degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turned), Math.sin(turned)];
  const dx = (from.x - to.x) / 2;
  const dy = (from.y - to.y) / 2;
  const px = cos * dx + sin * dy;
  const py = cos * dy - sin * dx;
  const grow = Math.max(1, Math.hypot(px / arc.rx, py / arc.ry));
  const [u, v] = [arc.rx * grow, arc.ry * grow];
  const rest = Math.max(0, 1 / ((px / u) ** 2 + (py / v) ** 2) - 1);
  const side = (arc.large === arc.positive ? -1 : 1) * Math.sqrt(rest);
  const cx = (side * u * py) / v;
  const cy = (-side * v * px) / u;
  const center = {
    x: (from.x + to.x) / 2 + cos * cx - sin * cy,
    y: (from.y + to.y) / 2 + sin * cx + cos * cy,
  };
  const start = Math.atan2((py - cy) / v, (px - cx) / u);
  let sweep = Math.atan2((-py - cy) / v, (-px - cx) / u) - start;
  if (arc.positive && sweep < 0) sweep += 2 * Math.PI;
  if (!arc.positive && sweep > 0) sweep -= 2 * Math.PI;
  const major = { x: u * cos, y: u * sin };
  const minor = { x: -v * sin, y: v * cos };
  const pieces = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 2) - 1e-9));
  for (let i = 0; i < pieces; i++) {
    line.curveTo(ellipseCurve(center, major, minor, start + (sweep * i) / pieces, sweep / pieces));
  }
}
