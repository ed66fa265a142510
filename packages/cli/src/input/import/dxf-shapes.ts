import type { Finding, Point, Vertex } from "@keelcut/geometry";
import type {
  IArcEntity,
  ICircleEntity,
  IEllipseEntity,
  IEntity,
  ILineEntity,
  ILwpolylineEntity,
  IPoint,
  IPolylineEntity,
} from "dxf-parser";
import { type Affine, compose, stretch } from "./affine.js";
import type { ParsedEntity } from "./dxf-parse.js";
import { type Spline, splineFault, splinePieces } from "./dxf-spline.js";
import { type RawEntity, valueAt } from "./dxf-structure.js";
import { DxfFault } from "./dxf-tags.js";
import { CurveFault, ellipseCurve, type Pen, pen } from "./pen.js";
import { importFinding, type ReadShape } from "./read-file.js";

/** Where an entity's shapes go. */
export interface ShapeContext {
  /** From the entity's coordinates to millimetres. */
  readonly map: Affine;
  readonly layer: string;
  readonly fitError: number;
  readonly block?: string;
  readonly shapes: ReadShape[];
  readonly findings: Finding[];
}

/** Where an entity stands, for a person. */
export function placeOf(raw: RawEntity): string {
  return `${raw.type} in line ${raw.line}`;
}

/** Adds the shape of one entity other than INSERT, or a finding that says why there is none. */
export function readShape({ raw, entity }: ParsedEntity, context: ShapeContext): void {
  const side = extrusion(raw);
  if (side === undefined) {
    context.findings.push(
      importFinding(
        "tilted",
        "error",
        placeOf(raw),
        "it does not lie in the drawing plane (extrusion direction)",
      ),
    );
    return;
  }
  noteWidthAndHeight(raw, context);
  try {
    readByType(entity, { ...context, raw, side });
  } catch (fault) {
    if (!(fault instanceof CurveFault)) throw fault;
    context.findings.push(importFinding("not-understood", "error", placeOf(raw), fault.message));
  }
}

function readByType(entity: IEntity, here: EntityContext): void {
  switch (here.raw.type) {
    case "LINE":
      readLine(entity as ILineEntity, here);
      break;
    case "CIRCLE":
      readCircle(entity as ICircleEntity, here);
      break;
    case "ARC":
      readArc(entity as IArcEntity, here);
      break;
    case "LWPOLYLINE":
      readLwPolyline(entity as ILwpolylineEntity, here);
      break;
    case "POLYLINE":
      readPolyline(entity as IPolylineEntity, here);
      break;
    case "ELLIPSE":
      readEllipse(entity as IEllipseEntity, here);
      break;
    case "SPLINE":
      readSpline(here);
      break;
    default:
      throw new DxfFault(`${here.raw.type} has no reader`, here.raw.line);
  }
}

interface EntityContext extends ShapeContext {
  readonly raw: RawEntity;
  /** -1 when the entity is seen from behind. */
  readonly side: 1 | -1;
}

/**
 * Seen from behind (extrusion 0, 0, -1), an entity's own x axis points the other way (DXF reference, "Arbitrary Axis
 * Algorithm"). Other directions leave the drawing plane.
 */
export function extrusion(raw: RawEntity): 1 | -1 | undefined {
  const [x, y, z] = [valueAt(raw, 210) ?? 0, valueAt(raw, 220) ?? 0, valueAt(raw, 230) ?? 1];
  if (Math.abs(x) > 1e-9 || Math.abs(y) > 1e-9 || z === 0) return undefined;
  return z > 0 ? 1 : -1;
}

/** The map for entities whose coordinates are their own plane's; lines, ellipses and splines are in world coordinates. */
function ownPlane(context: EntityContext): Affine {
  return context.side === 1 ? context.map : compose(context.map, stretch(-1, 1));
}

function readLine(line: ILineEntity, context: EntityContext): void {
  const from = required(line.vertices[0], context);
  const to = required(line.vertices[1], context);
  draw(context, context.map, false, (path) => {
    path.moveTo(from);
    path.lineTo(to);
  });
}

function readCircle(circle: ICircleEntity, context: EntityContext): void {
  const center = required(circle.center, context);
  const radius = positive(circle.radius, "radius", context);
  draw(context, ownPlane(context), true, (path) => {
    path.moveTo({ x: center.x + radius, y: center.y });
    path.arcTo(1, { x: center.x - radius, y: center.y });
    path.arcTo(1, { x: center.x + radius, y: center.y });
  });
}

function readArc(arc: IArcEntity, context: EntityContext): void {
  const center = required(arc.center, context);
  const radius = positive(arc.radius, "radius", context);
  if (arc.startAngle === undefined || arc.endAngle === undefined) throw missing(context, "an angle");
  const sweep = positiveTurn(arc.endAngle - arc.startAngle);
  const at = (angle: number): Point => ({
    x: center.x + radius * Math.cos(angle),
    y: center.y + radius * Math.sin(angle),
  });
  draw(context, ownPlane(context), false, (path) => {
    path.moveTo(at(arc.startAngle));
    path.arcTo(Math.tan(sweep / 8), at(arc.startAngle + sweep / 2));
    path.arcTo(Math.tan(sweep / 8), at(arc.startAngle + sweep));
  });
}

function readLwPolyline(polyline: ILwpolylineEntity, context: EntityContext): void {
  drawPolyline(polyline.vertices, polyline.shape === true, context);
}

function readPolyline(polyline: IPolylineEntity, context: EntityContext): void {
  if (polyline.is3dPolyline || polyline.is3dPolygonMesh || polyline.isPolyfaceMesh) {
    const message = "a polyline or mesh in space is not understood";
    context.findings.push(importFinding("not-understood", "error", placeOf(context.raw), message));
    return;
  }
  if (polyline.includesSplineFitVertices) {
    const message = "a spline-fit polyline is read as the straight pieces it holds";
    context.findings.push(importFinding("faceted", "warning", placeOf(context.raw), message));
  }
  const vertices = polyline.vertices.filter((vertex) => !vertex.splineControlPoint);
  drawPolyline(vertices, polyline.shape === true, context);
}

/** dxf-parser leaves a bulge of 0 out. */
function drawPolyline(
  list: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[],
  closed: boolean,
  context: EntityContext,
): void {
  const vertices = list.map((vertex): Vertex => ({ ...required(vertex, context), bulge: vertex.bulge ?? 0 }));
  const first = vertices[0];
  if (first === undefined || vertices.length < 2) throw missing(context, "a second vertex");
  draw(context, ownPlane(context), closed, (path) => {
    path.moveTo(first);
    vertices.forEach((vertex, index) => {
      const next = vertices[index + 1] ?? (closed ? first : undefined);
      if (next !== undefined) path.arcTo(vertex.bulge, next);
    });
  });
}

function readEllipse(ellipse: IEllipseEntity, context: EntityContext): void {
  const center = required(ellipse.center, context);
  const u = required(ellipse.majorAxisEndPoint, context);
  const ratio = positive(ellipse.axisRatio, "axis ratio", context);
  const start = ellipse.startAngle ?? 0;
  const end = ellipse.endAngle ?? 2 * Math.PI;
  const sweep = positiveTurn(end - start);
  const closed = Math.abs(sweep - 2 * Math.PI) < 1e-9;
  const v = { x: -u.y * ratio * context.side, y: u.x * ratio * context.side };
  const whole = ellipseCurve(center, u, v, start, sweep);
  draw(context, context.map, closed, (path) => {
    path.moveTo(whole.at(0));
    const quarters = 4;
    for (let quarter = 0; quarter < quarters; quarter++) {
      const part = sweep / quarters;
      const from = start + part * quarter;
      if (ratio === 1) path.arcTo(context.side * Math.tan(part / 4), whole.at((quarter + 1) / quarters));
      else path.curveTo(ellipseCurve(center, u, v, from, part));
    }
  });
}

/** From the groups themselves: dxf-parser drops the weights. */
function readSpline(context: EntityContext): void {
  const { raw } = context;
  const all = (code: number): number[] =>
    raw.tags.filter((tag) => tag.code === code).map((tag) => Number(tag.value));
  const ys = all(20);
  const controls = all(10).map((x, index): Point => ({ x, y: ys[index] ?? Number.NaN }));
  const weights = all(41);
  const spline: Spline = {
    degree: valueAt(raw, 71) ?? 3,
    knots: all(40),
    controls,
    weights: weights.length === 0 ? controls.map(() => 1) : weights,
  };
  const fault = controls.length === 0 ? "only fit points" : splineFault(spline);
  if (fault !== undefined) {
    const message = `a spline with ${fault} is not understood: redraw it as arcs and lines`;
    context.findings.push(importFinding("not-understood", "error", placeOf(raw), message));
    return;
  }
  const pieces = splinePieces(spline);
  const start = pieces[0]?.at(0) ?? { x: 0, y: 0 };
  const end = pieces.at(-1)?.at(1) ?? start;
  const size = controls.reduce(
    (most, point) => Math.max(most, Math.hypot(point.x - start.x, point.y - start.y)),
    0,
  );
  draw(context, context.map, Math.hypot(end.x - start.x, end.y - start.y) <= 1e-9 * size, (path) => {
    path.moveTo(start);
    for (const piece of pieces) path.curveTo(piece);
  });
}

/** For a closed path the pen comes back to the start; that vertex is the first one again and is left out. */
function draw(context: EntityContext, map: Affine, closed: boolean, write: (path: Pen) => void): void {
  const path = pen(map, context.fitError);
  write(path);
  const { vertices, fitted } = path.done();
  context.shapes.push({
    layer: context.layer,
    place: placeOf(context.raw),
    source: context.raw.type,
    vertices: closed ? vertices.slice(0, -1) : vertices,
    closed,
    ...(context.block === undefined ? {} : { block: context.block }),
    ...(fitted ? { fitError: context.fitError } : {}),
  });
}

function noteWidthAndHeight(raw: RawEntity, context: ShapeContext): void {
  const all = [raw, ...raw.children].flatMap((part) => part.tags);
  const isPolyline = raw.type === "LWPOLYLINE" || raw.type === "POLYLINE";
  const wide = isPolyline && all.some((tag) => [40, 41, 43].includes(tag.code) && Number(tag.value) !== 0);
  if (wide) {
    const message = "the line has a width: its middle is read, the width is ignored";
    context.findings.push(importFinding("line-width", "warning", placeOf(raw), message));
  }
  const heightCodes = raw.type === "LWPOLYLINE" ? [38] : [30, 31];
  if (all.some((tag) => heightCodes.includes(tag.code) && Number(tag.value) !== 0)) {
    const message = "it lies above or below z = 0: its projection is read";
    context.findings.push(importFinding("height", "warning", placeOf(raw), message));
  }
}

/** An angle difference turned into 0 < turn <= 2 pi: equal angles mean the whole circle. */
function positiveTurn(angle: number): number {
  const turn = angle - 2 * Math.PI * Math.floor(angle / (2 * Math.PI));
  return turn < 1e-12 ? 2 * Math.PI : turn;
}

function required(point: Pick<IPoint, "x" | "y"> | undefined, context: EntityContext): Point {
  if (point === undefined || !Number.isFinite(point.x) || !Number.isFinite(point.y)) {
    throw missing(context, "a point");
  }
  return { x: point.x, y: point.y };
}

function positive(value: number | undefined, name: string, context: EntityContext): number {
  if (value === undefined) throw missing(context, `its ${name}`);
  if (!(value > 0)) throw new DxfFault(`${context.raw.type} has ${name} ${value}`, context.raw.line);
  return value;
}

function missing(context: EntityContext, what: string): DxfFault {
  return new DxfFault(`${context.raw.type} lacks ${what}`, context.raw.line);
}
