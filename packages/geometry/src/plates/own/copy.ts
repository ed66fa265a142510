import { cross, dot, minus, along as step } from "../../checks/assembly/vector-3d.js";
import type { Point } from "../../contour/contour.js";
import { exactSine } from "../../contour/transform.js";
import type { OwnSeat } from "../../frame/own-plate-parameters.js";
import type { Seat, Vector } from "../plate.js";

/** One copy of a plate where it sits. A mirrored copy holds the plate's mirror image (x -> -x) in its seat. */
export interface Copy {
  readonly seat: Seat;
  readonly mirrored: boolean;
}

const frames: Readonly<Record<OwnSeat["lies"], { readonly u: Vector; readonly v: Vector }>> = {
  flat: { u: [1, 0, 0], v: [0, 1, 0] },
  across: { u: [0, 1, 0], v: [0, 0, 1] },
  along: { u: [1, 0, 0], v: [0, 0, 1] },
};

/** The copy a designer asks for: material fills from `at` up, forwards or to port. */
export function copyAt({ at, lies, turn, mirrored }: OwnSeat, thickness: number): Copy {
  const { u, v } = frames[lies];
  const { sin, cos } = exactSine(turn);
  // x forward and y up leave the normal pointing to starboard; the origin moves so that the material still fills to port.
  const aside = lies === "along" ? thickness : 0;
  return {
    seat: {
      origin: [at.x, at.y + aside, at.z],
      u: sum(cos, u, sin, v),
      v: sum(-sin, u, cos, v),
    },
    mirrored,
  };
}

/** A point of the plate as drawn, `height` above its lower face, in vehicle axes. */
export function pointInVehicle({ seat, mirrored }: Copy, point: Point, height: number): Vector {
  const x = mirrored ? -point.x : point.x;
  return step(step(step(seat.origin, seat.u, x), seat.v, point.y), normalOf(seat), height);
}

/** A direction of the plate as drawn, in vehicle axes. */
export function directionInVehicle({ seat, mirrored }: Copy, direction: Point): Vector {
  return sum(mirrored ? -direction.x : direction.x, seat.u, direction.y, seat.v);
}

/** A point of the vehicle in the plate as drawn, and its height above the lower face. */
export function pointInPlate(
  { seat, mirrored }: Copy,
  point: Vector,
): Point & {
  readonly height: number;
} {
  const from = minus(point, seat.origin);
  const x = dot(from, seat.u);
  return { x: mirrored ? -x : x, y: dot(from, seat.v), height: dot(from, normalOf(seat)) };
}

/** A direction of the vehicle in the plate as drawn. */
export function directionInPlate({ seat, mirrored }: Copy, direction: Vector): Point {
  const x = dot(direction, seat.u);
  return { x: mirrored ? -x : x, y: dot(direction, seat.v) };
}

export function normalOf(seat: Seat): Vector {
  return cross(seat.u, seat.v);
}

function sum(a: number, u: Vector, b: number, v: Vector): Vector {
  return [a * u[0] + b * v[0], a * u[1] + b * v[1], a * u[2] + b * v[2]];
}
