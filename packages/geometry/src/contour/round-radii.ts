import type { Point } from "./contour.js";
import { type Fillet, filletBetween } from "./fillet.js";
import { type Segment, segmentLength } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";

/** A corner to be rounded, between two pieces given by their indexes. */
export interface RoundedCorner {
  readonly before: number;
  readonly after: number;
  readonly turn: "left" | "right";
  readonly near: Point;
  /** The radius it has already, mm: 0 for a sharp corner. */
  readonly least: number;
  /** The tight arc between the two that the fillet replaces. */
  readonly replaces: number | undefined;
}

/**
 * For each corner the largest radius up to `wanted` (mm) for which its arc fits between its two sides, and for which the
 * arcs at both ends of one side leave room for each other; corners that share a side too short for both get
 * the same radius. Shrinking one arc never makes less room for another, so one pass over the sides is enough.
 */
export function largestRadii(
  pieces: readonly Segment[],
  corners: readonly RoundedCorner[],
  wanted: number,
): number[] {
  const fit = (corner: RoundedCorner, radius: number): Fillet | undefined => {
    const [before, after] = [pieces[corner.before], pieces[corner.after]];
    if (before === undefined || after === undefined) return undefined;
    return filletBetween(before, after, radius, corner.turn, corner.near);
  };
  const radii = corners.map((corner) =>
    largest((radius) => fit(corner, radius) !== undefined, corner.least, wanted),
  );
  pieces.forEach((piece, index) => {
    const atStart = corners.findIndex((corner) => corner.after === index);
    const atEnd = corners.findIndex((corner) => corner.before === index);
    const [start, end] = [corners[atStart], corners[atEnd]];
    if (start === undefined || end === undefined) return;
    const isRoomFor = (cap: number): boolean => {
      const taken =
        trim(fit, start, Math.min(cap, radii[atStart] ?? 0), "start") +
        trim(fit, end, Math.min(cap, radii[atEnd] ?? 0), "end");
      return (1 - taken) * segmentLength(piece) >= -TOLERANCE / 100;
    };
    const cap = largest(isRoomFor, 0, Math.max(radii[atStart] ?? 0, radii[atEnd] ?? 0));
    radii[atStart] = Math.max(start.least, Math.min(cap, radii[atStart] ?? 0));
    radii[atEnd] = Math.max(end.least, Math.min(cap, radii[atEnd] ?? 0));
  });
  return radii;
}

/** The fraction of the shared side that the arc at its start or end takes. */
function trim(
  fit: (corner: RoundedCorner, radius: number) => Fillet | undefined,
  corner: RoundedCorner,
  radius: number,
  at: "start" | "end",
): number {
  if (radius <= corner.least + TOLERANCE) return 0;
  const fillet = fit(corner, radius);
  if (fillet === undefined) return 1;
  return at === "start" ? fillet.onAfter : 1 - fillet.onBefore;
}

/** The largest number up to `most` that passes, by halving; `least` is known to pass. */
function largest(passes: (value: number) => boolean, least: number, most: number): number {
  if (passes(most)) return most;
  let [low, high] = [least, most];
  for (let step = 0; step < 50 && high - low > TOLERANCE / 1000; step++) {
    const middle = (low + high) / 2;
    if (passes(middle)) low = middle;
    else high = middle;
  }
  return low;
}
