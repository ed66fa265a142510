import { intersect } from "../../contour/boolean.js";
import type { Point, Region } from "../../contour/contour.js";
import { regionArea, regionCentroid } from "../../contour/measure.js";
import { reversed } from "../../contour/orient.js";
import { translate } from "../../contour/transform.js";
import { measuredThickness } from "../../plates/measured-thickness.js";
import type { Vector } from "../../plates/plate.js";
import { commonStretch, type Stretch, stretchesAlong } from "./material-along-line.js";
import { inPlate, inVehicle, type PlacedPlate } from "./placed-plate.js";
import { along, cross, dot, norm, unit } from "./vector-3d.js";

/** Plates that share less than this are taken to touch, mm: faces that meet by design share nothing. */
const TOUCH = 0.02;

/** Where the material of two plates meets, and over how much. */
export interface Clash {
  readonly at: Vector;
  /** Length of the common stretch, or the square root of the common area, mm. */
  readonly size: number;
}

/**
 * Do two plates fill the same space? At an angle they are compared along the lines in which faces and middle planes of one
 * cut those of the other; parallel ones by the area they share.
 */
export function platesMeet(a: PlacedPlate, b: PlacedPlate): Clash | undefined {
  for (const axis of [0, 1, 2] as const) {
    if (a.min[axis] > b.max[axis] - TOUCH || b.min[axis] > a.max[axis] - TOUCH) return undefined;
  }
  const direction = cross(a.normal, b.normal);
  return norm(direction) < 1e-9 ? parallelMeet(a, b) : crossingMeet(a, b, unit(direction));
}

function crossingMeet(a: PlacedPlate, b: PlacedPlate, direction: Vector): Clash | undefined {
  for (const heightA of heights(a)) {
    for (const heightB of heights(b)) {
      const start = commonPoint(a, heightA, b, heightB, direction);
      const window = commonWindow(a, b, start, direction);
      if (window.to - window.from < TOUCH) continue;
      const inA = materialOn(a, start, direction, window);
      if (inA.length === 0) continue;
      const shared = commonStretch(inA, materialOn(b, start, direction, window), TOUCH);
      if (shared !== undefined) {
        return {
          at: along(start, direction, (shared.from + shared.to) / 2),
          size: shared.to - shared.from,
        };
      }
    }
  }
  return undefined;
}

/** Where a line of the vehicle runs in the material of a plate. */
function materialOn(
  placed: PlacedPlate,
  start: Vector,
  direction: Vector,
  window: Stretch,
): readonly Stretch[] {
  const origin = inPlate(placed, start);
  const tip = inPlate(placed, along(start, direction, 1));
  return stretchesAlong(placed.material, origin, { x: tip.x - origin.x, y: tip.y - origin.y }, window);
}

/** The part of a line that lies within the boxes of both plates, or less: they can share nothing beyond it. */
function commonWindow(a: PlacedPlate, b: PlacedPlate, start: Vector, direction: Vector): Stretch {
  let from = Number.NEGATIVE_INFINITY;
  let to = Number.POSITIVE_INFINITY;
  for (const axis of [0, 1, 2] as const) {
    if (Math.abs(direction[axis]) < 1e-9) continue;
    const ends = [Math.max(a.min[axis], b.min[axis]), Math.min(a.max[axis], b.max[axis])].map(
      (end) => (end - start[axis]) / direction[axis],
    );
    from = Math.max(from, Math.min(...ends));
    to = Math.min(to, Math.max(...ends));
  }
  return { from, to };
}

/** Just inside both faces, and the middle. */
function heights({ plate }: PlacedPlate): readonly number[] {
  const thickness = measuredThickness(plate.sheet);
  return [TOUCH, thickness / 2, thickness - TOUCH];
}

/** The point of both planes nearest the middle of the first plate. */
function commonPoint(
  a: PlacedPlate,
  heightA: number,
  b: PlacedPlate,
  heightB: number,
  direction: Vector,
): Vector {
  const offsetA = dot(a.seat.origin, a.normal) + heightA;
  const offsetB = dot(b.seat.origin, b.normal) + heightB;
  const c = dot(a.normal, b.normal);
  const k = 1 - c * c;
  const onPlanes = along(
    along([0, 0, 0], a.normal, (offsetA - c * offsetB) / k),
    b.normal,
    (offsetB - c * offsetA) / k,
  );
  const middle: Vector = [(a.min[0] + a.max[0]) / 2, (a.min[1] + a.max[1]) / 2, (a.min[2] + a.max[2]) / 2];
  return along(onPlanes, direction, dot(middle, direction) - dot(onPlanes, direction));
}

function parallelMeet(a: PlacedPlate, b: PlacedPlate): Clash | undefined {
  const moved = movedRegion(b, a);
  const common = intersect([a.plate.region], [moved]);
  const area = common.reduce((sum, region) => sum + regionArea(region), 0);
  const [first] = common;
  if (first === undefined || area < TOUCH ** 2) return undefined;
  return {
    at: inVehicle(a.seat, a.normal, regionCentroid(first), measuredThickness(a.plate.sheet) / 2),
    size: Math.sqrt(area),
  };
}

/** The region of one plate in the plane of another that is parallel to it. */
function movedRegion(from: PlacedPlate, to: PlacedPlate): Region {
  const origin = inPlate(to, from.seat.origin);
  const x = inPlate(to, along(from.seat.origin, from.seat.u, 1));
  const y = inPlate(to, along(from.seat.origin, from.seat.v, 1));
  const u: Point = { x: x.x - origin.x, y: x.y - origin.y };
  const v: Point = { x: y.x - origin.x, y: y.y - origin.y };
  const flipped = u.x * v.y - u.y * v.x < 0;
  const turn = (contour: Region["outer"]): Region["outer"] => {
    const turned = contour.map((vertex) => ({
      x: vertex.x * u.x + vertex.y * v.x,
      y: vertex.x * u.y + vertex.y * v.y,
      bulge: flipped ? -vertex.bulge : vertex.bulge,
    }));
    const moved = translate(turned, origin.x, origin.y);
    return flipped ? reversed(moved) : moved;
  };
  return { outer: turn(from.plate.region.outer), openings: from.plate.region.openings.map(turn) };
}
