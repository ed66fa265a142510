import { fitArcs, isStraight, type Point, type Vertex } from "@keelcut/geometry";
import { type Affine, applyTo, applyToDirection, determinant, keepsCircles } from "./affine.js";

/** A smooth curve over 0 <= t <= 1, in the file's own coordinates. */
export interface Curve {
  readonly at: (t: number) => Point;
  readonly tangent: (t: number) => Point;
}

/** A curve no arcs can follow: it has a cusp or a corner, or its numbers are out of range. */
export class CurveFault extends Error {
  constructor(message: string) {
    super(message);
    this.name = "CurveFault";
  }
}

/** Draws one path through the map from the file's coordinates to millimetres. */
export interface Pen {
  readonly moveTo: (point: Point) => void;
  readonly lineTo: (point: Point) => void;
  /** An arc with this bulge in the file's coordinates, y up or down as they run. */
  readonly arcTo: (bulge: number, point: Point) => void;
  /** A curve that starts where the pen is. */
  readonly curveTo: (curve: Curve) => void;
  readonly done: () => PenPath;
}

export interface PenPath {
  /** One vertex more than segments. */
  readonly vertices: readonly Vertex[];
  /** True when a curve was replaced by arcs within the error. */
  readonly fitted: boolean;
}

/** A pen that keeps lines and, where the map allows, arcs exact, and replaces other curves by arcs within `fitError`. */
export function pen(toMillimetres: Affine, fitError: number): Pen {
  const vertices: { x: number; y: number; bulge: number }[] = [];
  const round = keepsCircles(toMillimetres);
  const side = determinant(toMillimetres) < 0 ? -1 : 1;
  let here: Point = { x: 0, y: 0 };
  let fitted = false;

  const add = (bulge: number, { x, y }: Point): void => {
    const last = vertices.at(-1);
    // What a program writes for a straight side may be a bulge of rounding.
    if (last !== undefined) last.bulge = isStraight({ ...last, bulge }, { x, y }) ? 0 : bulge;
    vertices.push({ x, y, bulge: 0 });
  };
  const lineTo = (point: Point): void => {
    add(0, applyTo(toMillimetres, point));
    here = point;
  };
  const curveTo = (curve: Curve): void => {
    const arcs = arcsAlong(
      {
        at: (t) => applyTo(toMillimetres, curve.at(t)),
        tangent: (t) => applyToDirection(toMillimetres, directionOf(curve, t)),
      },
      fitError,
    );
    let bulge = arcs[0]?.bulge ?? 0;
    for (const vertex of [...arcs.slice(1), ...end(arcs, applyTo(toMillimetres, curve.at(1)))]) {
      add(bulge, vertex);
      bulge = vertex.bulge;
    }
    here = curve.at(1);
    fitted = true;
  };
  return {
    moveTo: (point) => {
      vertices.push({ ...applyTo(toMillimetres, point), bulge: 0 });
      here = point;
    },
    lineTo,
    arcTo: (bulge, point) => {
      if (bulge === 0) lineTo(point);
      else if (round) {
        add(bulge * side, applyTo(toMillimetres, point));
        here = point;
      } else curveTo(bulgeCurve(here, point, bulge));
    },
    curveTo,
    done: () => ({ vertices, fitted }),
  };
}

function arcsAlong(curve: Curve, fitError: number): readonly Vertex[] {
  try {
    return fitArcs(curve, fitError);
  } catch (error) {
    if (error instanceof RangeError) throw new CurveFault(error.message);
    throw error;
  }
}

/** Where control points coincide a curve has no speed but still a direction: that of the way from there. */
function directionOf(curve: Curve, t: number): Point {
  const tangent = curve.tangent(t);
  if (Math.hypot(tangent.x, tangent.y) > 1e-9) return tangent;
  const [from, to] = [curve.at(Math.max(0, t - 1e-4)), curve.at(Math.min(1, t + 1e-4))];
  return { x: to.x - from.x, y: to.y - from.y };
}

/** The curve's end, when the arcs do not hold it as their last vertex because the curve comes back to its start. */
function end(arcs: readonly Vertex[], point: Point): readonly Vertex[] {
  const last = arcs.at(-1);
  const held = last !== undefined && Math.hypot(last.x - point.x, last.y - point.y) <= 1e-9;
  return held ? [] : [{ ...point, bulge: 0 }];
}

/** The ellipse arc centre + cos(angle) u + sin(angle) v, from angle `start` through `sweep` radians. */
export function ellipseCurve(center: Point, u: Point, v: Point, start: number, sweep: number): Curve {
  return {
    at: (t) => {
      const angle = start + sweep * t;
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      return { x: center.x + cos * u.x + sin * v.x, y: center.y + cos * u.y + sin * v.y };
    },
    tangent: (t) => {
      const angle = start + sweep * t;
      const [cos, sin] = [Math.cos(angle) * sweep, Math.sin(angle) * sweep];
      return { x: cos * v.x - sin * u.x, y: cos * v.y - sin * u.y };
    },
  };
}

/** A Bezier curve of any degree. */
export function bezierCurve(controls: readonly Point[]): Curve {
  const differences = controls.slice(1).map((point, index) => {
    const before = controls[index] ?? point;
    return {
      x: (point.x - before.x) * (controls.length - 1),
      y: (point.y - before.y) * (controls.length - 1),
    };
  });
  return { at: (t) => blend(controls, t), tangent: (t) => blend(differences, t) };
}

/** De Casteljau's scheme. */
function blend(points: readonly Point[], t: number): Point {
  let level = points;
  while (level.length > 1) {
    level = level.slice(1).map((point, index) => {
      const before = level[index] ?? point;
      return { x: before.x + (point.x - before.x) * t, y: before.y + (point.y - before.y) * t };
    });
  }
  return level[0] ?? { x: 0, y: 0 };
}

function bulgeCurve(from: Point, to: Point, bulge: number): Curve {
  const height = (1 - bulge * bulge) / (4 * bulge);
  const center = {
    x: (from.x + to.x) / 2 - (to.y - from.y) * height,
    y: (from.y + to.y) / 2 + (to.x - from.x) * height,
  };
  const radius = Math.hypot(from.x - center.x, from.y - center.y);
  const start = Math.atan2(from.y - center.y, from.x - center.x);
  return ellipseCurve(center, { x: radius, y: 0 }, { x: 0, y: radius }, start, 4 * Math.atan(bulge));
}
