import {
  bounds,
  type Contour,
  flatten,
  measuredThickness,
  type Plate,
  placeContour,
  type Seat,
  type Vector,
} from "@keelcut/geometry";
import { coordinate, regionPathData } from "./path-data.js";
import { add, cross, dot, onPaper, type Projected, scale, type View } from "./view.js";

/** Cosine below which a plate counts as seen along or across its plane. */
const ALIGNED = 1e-9;

/** A plate as a view shows it: its true contours face-on, a bar of its thickness edge-on, both faces and the walls between when it leans. */
export function projectPlate(plate: Plate, seat: Seat, view: View): Projected {
  const normal = cross(seat.u, seat.v);
  const thickness = measuredThickness(plate.sheet);
  const facing = dot(normal, view.toward);
  const [minX, maxX] = reach(plate, seat, normal, view.right);
  const [minY, maxY] = reach(plate, seat, normal, view.up);
  const [back, front] = reach(plate, seat, normal, view.toward);
  const common = { box: { minX, minY, maxX, maxY }, depth: (back + front) / 2 };
  if (Math.abs(facing) < ALIGNED)
    return { ...common, paths: [{ data: edgeData(plate, seat, normal, view) }] };

  const data = regionPathData(plate.region);
  const near = facing > 0 ? thickness : 0;
  const face = (t: number): Projected["paths"][number] => ({
    data,
    matrix: faceMatrix(seat, normal, t, view),
  });
  if (Math.abs(facing) > 1 - ALIGNED) return { ...common, paths: [face(near)] };
  const walls = { data: wallData(plate, seat, normal, view), wall: true as const };
  return { ...common, paths: [face(thickness - near), walls, face(near)] };
}

/** How far the plate reaches along a direction, from its true contour. */
function reach(plate: Plate, seat: Seat, normal: Vector, direction: Vector): [number, number] {
  const along = extentAlong(plate.region.outer, dot(seat.u, direction), dot(seat.v, direction));
  const start = dot(seat.origin, direction);
  const through = dot(normal, direction) * measuredThickness(plate.sheet);
  return [start + along[0] + Math.min(0, through), start + along[1] + Math.max(0, through)];
}

/** Least and greatest a*x + b*y over a contour. */
function extentAlong(contour: Contour, a: number, b: number): [number, number] {
  const length = Math.hypot(a, b);
  const degrees = (Math.atan2(b, a) * 180) / Math.PI;
  const box = bounds(placeContour(contour, { x: 0, y: 0, rotation: -degrees, mirrored: false }));
  return [box.minX * length, box.maxX * length];
}

function edgeData(plate: Plate, seat: Seat, normal: Vector, view: View): string {
  // The direction of the plate's plane that stays visible; everything across it falls on one line.
  const edge = cross(normal, view.toward);
  const [from, to] = extentAlong(plate.region.outer, dot(seat.u, edge), dot(seat.v, edge));
  const corner = (s: number, t: number): [number, number] =>
    onPaper(add(seat.origin, scale(edge, s), scale(normal, t)), view);
  const thickness = measuredThickness(plate.sheet);
  return polygonData([corner(from, 0), corner(to, 0), corner(to, thickness), corner(from, thickness)]);
}

/** The parts of the cut edge that face the eye, as one path of flat pieces. */
function wallData(plate: Plate, seat: Seat, normal: Vector, view: View): string {
  const size = bounds(plate.region.outer);
  const chordError = Math.max(size.maxX - size.minX, size.maxY - size.minY) / 1000;
  const pieces: string[] = [];
  for (const contour of [plate.region.outer, ...plate.region.openings]) {
    const points = flatten(contour, chordError, "on");
    points.forEach((p, i) => {
      const q = points[(i + 1) % points.length] ?? p;
      // Material lies to the left of every contour, so the wall looks to the right of its direction.
      const outward = add(scale(seat.u, q.y - p.y), scale(seat.v, p.x - q.x));
      if (dot(outward, view.toward) <= 0) return;
      const at = ({ x, y }: { x: number; y: number }, t: number): [number, number] =>
        onPaper(add(seat.origin, scale(seat.u, x), scale(seat.v, y), scale(normal, t)), view);
      const thickness = measuredThickness(plate.sheet);
      pieces.push(polygonData([at(p, 0), at(q, 0), at(q, thickness), at(p, thickness)]));
    });
  }
  return pieces.join("");
}

/** Maps the plate's own (x, -y) onto paper (right, -up). */
function faceMatrix(seat: Seat, normal: Vector, t: number, view: View): string {
  const [ur, uu] = onPaper(seat.u, view);
  const [vr, vu] = onPaper(seat.v, view);
  const [or, ou] = onPaper(add(seat.origin, scale(normal, t)), view);
  return `matrix(${[ur, -uu, -vr, vu, or, -ou].map(precise).join(" ")})`;
}

/** Six places: a direction cosine multiplies a whole plate's length. */
function precise(value: number): string {
  const rounded = Number(value.toFixed(6));
  return String(rounded === 0 ? 0 : rounded);
}

function polygonData(points: readonly (readonly [number, number])[]): string {
  return `M${points.map(([x, y]) => `${coordinate(x)} ${coordinate(-y)}`).join("L")}Z`;
}
