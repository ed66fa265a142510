import { commonStretch, materialAlongLine, type Stretch } from "../../checks/assembly/material-along-line.js";
import { cross, dot, along as step, unit } from "../../checks/assembly/vector-3d.js";
import { numberText } from "../../checks/number-text.js";
import { subtract, unite } from "../../contour/boolean.js";
import { regionBounds } from "../../contour/bounds.js";
import { polygon } from "../../contour/build.js";
import type { Contour, Point, Region } from "../../contour/contour.js";
import { cornerRelief } from "../../features/corner-relief.js";
import { TAB_END_PLAY, TAB_THICKNESS_PLAY } from "../../features/tab-joint.js";
import type { Vector } from "../plate.js";
import { type Copy, directionInPlate, normalOf, pointInPlate } from "./copy.js";

/** Plates that cross over less than this need no joint, mm. */
const SHORTEST = 1;

/** One of two plates that cross, as it is before the joint. */
export interface Crossing {
  readonly name: string;
  readonly region: Region;
  readonly nominal: number;
  readonly thickest: number;
  readonly copies: readonly Copy[];
}

/** Notches of a half-lap joint, each in its own plate's plane. */
export interface Notches {
  readonly first: readonly Contour[];
  readonly second: readonly Contour[];
}

/**
 * Notches by which two plates cross: each gives way over half the height they share, the first from its upper end (or its
 * foremost, or the one to port) and the second from the other. As wide as the other plate at its thickest, with play.
 *
 * @throws RangeError when no copies of the two plates cross, or they cross at another angle than a right one
 */
export function halfLap(first: Crossing, second: Crossing, relief: number): Notches {
  const joints = first.copies.flatMap((a) =>
    second.copies.flatMap((b) => joint(first, a, second, b, relief)),
  );
  if (joints.length === 0) {
    throw new RangeError(
      `${first.name} does not cross ${second.name} anywhere; move one of them, or take the lap out`,
    );
  }
  return {
    first: distinct(joints.map((each) => each.first)),
    second: distinct(joints.map((each) => each.second)),
  };
}

/** The plate without its notches. Throws RangeError when they cut it apart. */
export function notched(outline: Contour, notches: readonly Contour[], name: string): Contour {
  if (notches.length === 0) return outline;
  const rest = subtract(
    [{ outer: outline, openings: [] }],
    notches.map((outer) => ({ outer, openings: [] })),
  );
  const [piece] = rest;
  if (piece === undefined || rest.length !== 1 || piece.openings.length > 0) {
    throw new RangeError(`the half-lap notches cut ${name} into ${rest.length} pieces; make it higher there`);
  }
  return piece.outer;
}

function joint(
  first: Crossing,
  a: Copy,
  second: Crossing,
  b: Copy,
  relief: number,
): readonly { readonly first: Contour; readonly second: Contour }[] {
  const [na, nb] = [normalOf(a.seat), normalOf(b.seat)];
  const across = dot(na, nb);
  if (Math.abs(across) > 1 - 1e-9) return [];
  const direction = positive(unit(cross(na, nb)));
  const start = meeting(a, first.nominal / 2, b, second.nominal / 2);
  const stretchesA = stretchesOf(first, a, start, direction);
  const stretchesB = stretchesOf(second, b, start, direction);
  const shared = commonStretch(stretchesA, stretchesB, SHORTEST);
  if (shared === undefined) return [];
  if (Math.abs(across) > 1e-6) {
    const angle = (Math.acos(Math.min(1, Math.abs(across))) * 180) / Math.PI;
    throw new RangeError(
      `${first.name} and ${second.name} cross at ${numberText(angle)} degrees; a half-lap joint needs a right angle`,
    );
  }
  const middle = (shared.from + shared.to) / 2;
  const holds = ({ from, to }: Stretch): boolean => from <= middle && middle <= to;
  const endA = stretchesA.find(holds)?.to ?? shared.to;
  const endB = stretchesB.find(holds)?.from ?? shared.from;
  return [
    {
      first: notch(a, start, direction, middle, endA, second.thickest, relief),
      second: notch(b, start, direction, middle, endB, first.thickest, relief),
    },
  ];
}

/** From the middle of the common height, and half the play beyond, out past the plate's end. */
function notch(
  copy: Copy,
  start: Vector,
  direction: Vector,
  middle: number,
  end: number,
  thickest: number,
  relief: number,
): Contour {
  const width = thickest + TAB_THICKNESS_PLAY;
  const outwards = Math.sign(end - middle);
  const along = directionInPlate(copy, direction);
  const origin = pointInPlate(copy, start);
  const inner = middle - (outwards * TAB_END_PLAY) / 2;
  const corner = (t: number, side: number): Point => ({
    x: origin.x + along.x * t - (along.y * side * width) / 2,
    y: origin.y + along.y * t + (along.x * side * width) / 2,
  });
  // A side that slopes up to 45 degrees is still cut through over the whole width.
  const outer = end + outwards * width;
  const slot = polygon([corner(inner, -1), corner(outer, -1), corner(outer, 1), corner(inner, 1)]);
  if (relief === 0) return slot;
  const reliefs = [-1, 1].map((side) => ({
    outer: cornerRelief(corner(inner, side), corner(inner + outwards * width, -side), relief),
    openings: [],
  }));
  const [whole] = unite([{ outer: slot, openings: [] }, ...reliefs]);
  return whole?.outer ?? slot;
}

function stretchesOf({ region }: Crossing, copy: Copy, start: Vector, direction: Vector): readonly Stretch[] {
  const box = regionBounds(region);
  const origin = pointInPlate(copy, start);
  const reach = Math.hypot(box.maxX - box.minX, box.maxY - box.minY) + farthest(origin, box);
  return materialAlongLine(region, origin, directionInPlate(copy, direction), reach);
}

function farthest(point: Point, box: ReturnType<typeof regionBounds>): number {
  return Math.hypot(point.x - (box.minX + box.maxX) / 2, point.y - (box.minY + box.maxY) / 2);
}

/** A point on both middle planes. */
function meeting(a: Copy, heightA: number, b: Copy, heightB: number): Vector {
  const [na, nb] = [normalOf(a.seat), normalOf(b.seat)];
  const offA = dot(a.seat.origin, na) + heightA;
  const offB = dot(b.seat.origin, nb) + heightB;
  const c = dot(na, nb);
  const k = 1 - c * c;
  return step(step([0, 0, 0], na, (offA - c * offB) / k), nb, (offB - c * offA) / k);
}

/** Turned so that its largest part points up, forwards or to port. */
function positive(direction: Vector): Vector {
  const largest = direction.reduce((best, part) => (Math.abs(part) > Math.abs(best) + 1e-9 ? part : best), 0);
  return largest < 0 ? step([0, 0, 0], direction, -1) : direction;
}

/** Copies that stand alike want the same notch: it is cut once. */
function distinct(contours: readonly Contour[]): readonly Contour[] {
  const seen = new Set<string>();
  return contours.filter((contour) => {
    const key = contourKey(contour);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Equal for contours that agree to a thousandth of a millimetre, wherever they begin. */
export function contourKey(contour: Contour): string {
  const text = (value: number): string => (Math.round(value * 1000) / 1000 + 0).toFixed(3);
  return contour
    .map(({ x, y }) => `${text(x)} ${text(y)}`)
    .sort()
    .join(",");
}
