import type { Box, Vector } from "@keelcut/geometry";

/** A way to look at the vehicle (x forward, y to port, z up): what points right and up on paper, and towards the eye. All are unit vectors. */
export interface View {
  readonly id: "top" | "side" | "front" | "whole";
  readonly name: string;
  readonly right: Vector;
  readonly up: Vector;
  readonly toward: Vector;
}

export const TOP: View = { id: "top", name: "Top", right: [1, 0, 0], up: [0, 1, 0], toward: [0, 0, 1] };
export const SIDE: View = {
  id: "side",
  name: "Starboard side",
  right: [1, 0, 0],
  up: [0, 0, 1],
  toward: [0, -1, 0],
};
export const FRONT: View = { id: "front", name: "Front", right: [0, 1, 0], up: [0, 0, 1], toward: [1, 0, 0] };

/** The whole vehicle from ahead, starboard and above. Parallel projection, so that parallel edges stay parallel. */
export const WHOLE: View = lookFrom("whole", "From ahead, starboard and above", [0.78, -1, 0.72]);

/** A body as a view shows it: path data in millimetres, y negated. */
export interface Projected {
  /** Distance of its middle towards the eye, mm. */
  readonly depth: number;
  /** What it covers on paper, mm, y up. */
  readonly box: Box;
  /** Drawn in this order; a `wall` is the side of a plate's thickness, without an edge of its own. */
  readonly paths: readonly { readonly data: string; readonly matrix?: string; readonly wall?: true }[];
  /** Middle line or centre, drawn thin. */
  readonly lines?: string;
}

/** The point on paper, mm, y up. */
export function onPaper(p: Vector, view: View): [number, number] {
  return [dot(p, view.right), dot(p, view.up)];
}

export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function scale(a: Vector, k: number): Vector {
  return [a[0] * k, a[1] * k, a[2] * k];
}

export function add(...vectors: readonly Vector[]): Vector {
  return vectors.reduce((sum, v) => [sum[0] + v[0], sum[1] + v[1], sum[2] + v[2]], [0, 0, 0] as Vector);
}

export function subtract(a: Vector, b: Vector): Vector {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

function lookFrom(id: View["id"], name: string, from: Vector): View {
  const toward = unit(from);
  const right = unit(cross([0, 0, 1], toward));
  return { id, name, right, up: cross(toward, right), toward };
}

function unit(a: Vector): Vector {
  return scale(a, 1 / Math.hypot(...a));
}
