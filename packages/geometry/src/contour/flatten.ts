import type { Contour, Point } from "./contour.js";
import { signedArea } from "./measure.js";
import { type ArcSegment, segments } from "./segment.js";
import { TOLERANCE } from "./tolerance.js";
import { polar } from "./vector.js";

/** `outside`: the polygon contains the enclosed area; `inside`: is contained in it; `on`: its vertices lie on the curve. */
export type FlattenSide = "outside" | "inside" | "on";

/**
 * A polygon of the contour, nowhere farther from it than `chordError` (mm), run the same way.
 *
 * On the safe side an arc becomes either chords (vertices on the arc) or tangents (vertices outside its circle),
 * whichever lies on the asked side. With either, the error of a step d is r (1 - cos(d/2)) or r (1/cos(d/2) - 1).
 * Vertices on a straight line between their neighbours are left out. Throws RangeError unless chordError is positive.
 */
export function flatten(contour: Contour, chordError: number, side: FlattenSide): Point[] {
  if (!(Number.isFinite(chordError) && chordError > 0)) {
    throw new RangeError(`the chord error must be more than 0, got ${chordError}`);
  }
  const way = Math.sign(signedArea(contour));
  const runs = segments(contour).map((piece): Point[] => {
    if (piece.kind === "line") return [piece.from];
    const convex = Math.sign(piece.sweep) === way;
    const tangents = side !== "on" && convex === (side === "outside");
    return [piece.from, ...(tangents ? tangentPoints(piece, chordError) : chordPoints(piece, chordError))];
  });
  return withoutStraightJoints(runs);
}

/** Points of the arc strictly between its ends. */
function chordPoints(piece: ArcSegment, chordError: number): Point[] {
  const steps = stepsFor(piece, 2 * Math.acos(Math.max(0, 1 - chordError / piece.radius)));
  const points: Point[] = [];
  for (let step = 1; step < steps; step++) {
    points.push(polar(piece.center, piece.radius, piece.startAngle + (piece.sweep * step) / steps));
  }
  return points;
}

/** Where the tangents at the ends and at equal steps between them meet: one point per step, outside the circle. */
function tangentPoints(piece: ArcSegment, chordError: number): Point[] {
  const steps = stepsFor(piece, 2 * Math.acos(piece.radius / (piece.radius + chordError)));
  const reach = piece.radius / Math.cos(piece.sweep / steps / 2);
  const points: Point[] = [];
  for (let step = 0; step < steps; step++) {
    points.push(polar(piece.center, reach, piece.startAngle + (piece.sweep * (step + 0.5)) / steps));
  }
  return points;
}

/** Never more than a right angle per step, so that the polygon of a tiny circle is still a square around it. */
function stepsFor(piece: ArcSegment, largestStep: number): number {
  const step = Math.min(Math.PI / 2, largestStep);
  return Math.max(1, Math.ceil(Math.abs(piece.sweep) / step - 1e-9));
}

/** Tangents of arcs that continue one another lie on one line: the vertex where they meet says nothing. */
function withoutStraightJoints(runs: readonly Point[][]): Point[] {
  return runs.flatMap((run, index) => {
    const joint = run[0];
    const before = runs[(index + runs.length - 1) % runs.length]?.at(-1);
    const after = run[1] ?? runs[(index + 1) % runs.length]?.[0];
    if (joint === undefined || before === undefined || after === undefined) return run;
    return isBetween(before, joint, after) ? run.slice(1) : run;
  });
}

function isBetween(before: Point, point: Point, after: Point): boolean {
  const inX = point.x - before.x;
  const inY = point.y - before.y;
  const outX = after.x - point.x;
  const outY = after.y - point.y;
  const length = Math.hypot(inX + outX, inY + outY);
  return inX * outX + inY * outY > 0 && Math.abs(inX * outY - inY * outX) <= length * (TOLERANCE / 1000);
}
