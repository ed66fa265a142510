import { type Point, type Segment, segmentLength, tangentAt } from "@keelcut/geometry";

/** What bounds a machine's motion; mm, s. */
export interface MotionLimits {
  /** Along the path and across it (centripetal), each on its own, mm/s2. */
  readonly acceleration: number;
  /** How far the controller may leave a corner to keep speed, mm. */
  readonly cornerDeviation: number;
}

/**
 * Least time to run along a closed path at up to `speed` mm/s, starting and ending at rest, in seconds.
 *
 * Model: trapezoidal speed (constant acceleration, cruise, constant deceleration) on every segment; an arc is run no faster
 * than sqrt(a r), so that its centripetal acceleration stays within a; a corner no faster than sqrt(a r) of the circle that
 * touches both directions and passes the corner at `cornerDeviation` (r = d sin b / (1 - sin b), b half the angle between
 * the two sides). Speeds at the joints follow from one pass forwards and one backwards, which gives the fastest profile
 * within these limits. Jerk is not limited; the machine's look-ahead is taken as long enough.
 */
export function pathSeconds(segments: readonly Segment[], speed: number, limits: MotionLimits): number {
  refuseBadLimits(speed, limits);
  const a = limits.acceleration;
  const pieces = segments
    .map((segment) => ({ segment, length: segmentLength(segment), top: topSpeed(segment, speed, a) }))
    .filter((piece) => piece.length > 0);
  // joints[i] is the speed at the start of piece i; the path starts and ends at rest.
  const joints = new Array<number>(pieces.length + 1).fill(0);
  for (let i = 1; i < pieces.length; i++) {
    const [before, after] = [pieces[i - 1], pieces[i]];
    if (before === undefined || after === undefined) continue;
    const corner = cornerSpeed(tangentAt(before.segment, 1), tangentAt(after.segment, 0), limits);
    const reached = Math.sqrt((joints[i - 1] ?? 0) ** 2 + 2 * a * before.length);
    joints[i] = Math.min(corner, before.top, after.top, reached);
  }
  for (let i = pieces.length - 1; i > 0; i--) {
    const stoppable = Math.sqrt((joints[i + 1] ?? 0) ** 2 + 2 * a * (pieces[i]?.length ?? 0));
    joints[i] = Math.min(joints[i] ?? 0, stoppable);
  }
  return pieces.reduce(
    (sum, piece, i) => sum + trapezoidSeconds(piece.length, joints[i] ?? 0, joints[i + 1] ?? 0, piece.top, a),
    0,
  );
}

/** Time for one straight move from rest to rest, s. */
export function moveSeconds(distance: number, speed: number, acceleration: number): number {
  if (distance === 0) return 0;
  return trapezoidSeconds(distance, 0, 0, speed, acceleration);
}

/** Time for a length with speeds `enter` and `leave` at its ends and at most `top` between them, all reachable. */
function trapezoidSeconds(length: number, enter: number, leave: number, top: number, a: number): number {
  const peak = Math.min(top, Math.sqrt(a * length + (enter ** 2 + leave ** 2) / 2));
  const ramps = (2 * peak ** 2 - enter ** 2 - leave ** 2) / (2 * a);
  return (2 * peak - enter - leave) / a + Math.max(0, length - ramps) / peak;
}

function topSpeed(segment: Segment, speed: number, a: number): number {
  return segment.kind === "line" ? speed : Math.min(speed, Math.sqrt(a * segment.radius));
}

function cornerSpeed(arriving: Point, leaving: Point, limits: MotionLimits): number {
  const cosTurn = arriving.x * leaving.x + arriving.y * leaving.y;
  // Half the angle between the sides is (180 - turn) / 2, so its sine is cos(turn / 2).
  const sinHalf = Math.sqrt(Math.max(0, (1 + cosTurn) / 2));
  if (sinHalf >= 1 - 1e-12) return Number.POSITIVE_INFINITY;
  const radius = (limits.cornerDeviation * sinHalf) / (1 - sinHalf);
  return Math.sqrt(limits.acceleration * radius);
}

function refuseBadLimits(speed: number, limits: MotionLimits): void {
  for (const [name, value] of Object.entries({
    speed,
    acceleration: limits.acceleration,
    cornerDeviation: limits.cornerDeviation,
  })) {
    if (!(value > 0) || !Number.isFinite(value))
      throw new RangeError(`${name} must be positive, not ${value}`);
  }
}
