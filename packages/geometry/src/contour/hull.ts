import { arcVertices } from "./arc-vertices.js";
import { circle, withoutRepeats } from "./build.js";
import type { Contour, Point, Vertex } from "./contour.js";
import { TOLERANCE } from "./tolerance.js";
import { distanceBetween, refuseNonFinite } from "./vector.js";

/**
 * The tightest outline around discs: arcs of the discs joined by their outer common tangents, counter-clockwise.
 * A radius may be 0 (a point). Throws RangeError on a negative radius or when the discs enclose no area.
 *
 * Walks once around the support function max(c.u + r) over directions u: the disc that reaches farthest
 * gives way to the next at the direction of their common tangent.
 */
export function hullOfCircles(
  discs: readonly { readonly center: Point; readonly radius: number }[],
): Contour {
  discs.forEach((disc, index) => {
    refuseNonFinite(disc.center, `disc ${index}`);
    if (!(Number.isFinite(disc.radius) && disc.radius >= 0)) {
      throw new RangeError(`disc ${index}: the radius must be 0 or more, got ${disc.radius}`);
    }
  });
  const hull = discs.filter(
    (disc, index) => !discs.some((other, at) => at !== index && covers(other, disc, at < index)),
  );
  const only = hull[0];
  if (only === undefined) throw new RangeError("the hull of no discs is no contour");
  if (hull.length === 1) return circle(only.center, only.radius);
  const vertices: Vertex[] = [];
  for (const { disc, start, end } of walkAround(hull)) {
    vertices.push(...arcVertices(disc.center, disc.radius, start, end - start));
  }
  const distinct = withoutRepeats(vertices);
  if (distinct.length < 3 && distinct.every((vertex) => vertex.bulge === 0)) {
    throw new RangeError("the discs lie on one line and enclose no area");
  }
  return distinct;
}

type Disc = { readonly center: Point; readonly radius: number };

/** Whether `disc` lies in `other`; of two equal discs only the earlier covers. */
function covers(other: Disc, disc: Disc, otherIsEarlier: boolean): boolean {
  const spare = other.radius - disc.radius - distanceBetween(other.center, disc.center);
  if (spare < -TOLERANCE / 10) return false;
  return otherIsEarlier || other.radius > disc.radius + TOLERANCE;
}

interface HullArc {
  readonly disc: Disc;
  readonly start: number;
  readonly end: number;
}

function walkAround(hull: readonly Disc[]): HullArc[] {
  const arcs: HullArc[] = [];
  const first = hull.reduce((best, disc) => (reachesFarther(disc, best) ? disc : best));
  let current = first;
  let angle = 0;
  // Each pair of discs has two common tangents, so a walk is never longer than that.
  for (let step = 0; step <= hull.length * hull.length; step++) {
    const next = nextHandover(hull, current, angle);
    if (next === undefined || next.angle >= 2 * Math.PI) break;
    arcs.push({ disc: current, start: angle, end: next.angle });
    current = next.disc;
    angle = next.angle;
  }
  arcs.push({ disc: current, start: angle, end: 2 * Math.PI });
  return joinEnds(arcs, first);
}

/** The walk starts in the middle of the first disc's arc: join the two halves. */
function joinEnds(arcs: readonly HullArc[], first: Disc): HullArc[] {
  const head = arcs[0];
  const tail = arcs.at(-1);
  if (head === undefined || tail === undefined || arcs.length < 2 || tail.disc !== first) return [...arcs];
  return [...arcs.slice(1, -1), { disc: first, start: tail.start, end: head.end + 2 * Math.PI }];
}

/** Farther in direction +x; on a tie, the one that is farther just after, counter-clockwise. */
function reachesFarther(disc: Disc, best: Disc): boolean {
  const lead = disc.center.x + disc.radius - (best.center.x + best.radius);
  return Math.abs(lead) > TOLERANCE ? lead > 0 : disc.center.y > best.center.y;
}

/** The smallest direction above `angle` at which another disc overtakes the current one; the farthest disc on a tie. */
function nextHandover(
  hull: readonly Disc[],
  current: Disc,
  angle: number,
): { disc: Disc; angle: number } | undefined {
  let best: { disc: Disc; angle: number; ahead: number } | undefined;
  for (const disc of hull) {
    if (disc === current) continue;
    const dx = disc.center.x - current.center.x;
    const dy = disc.center.y - current.center.y;
    const apart = Math.hypot(dx, dy);
    // h(phi) = apart * cos(phi - bearing) + (r - R) becomes positive at bearing - acos((R - r) / apart).
    const ratio = Math.max(-1, Math.min(1, (current.radius - disc.radius) / apart));
    let at = Math.atan2(dy, dx) - Math.acos(ratio);
    while (at < angle - ANGLE_NOISE) at += 2 * Math.PI;
    while (at - 2 * Math.PI >= angle - ANGLE_NOISE) at -= 2 * Math.PI;
    const ahead = -dx * Math.sin(at) + dy * Math.cos(at);
    const sooner = best === undefined || at < best.angle - ANGLE_NOISE;
    const level = best !== undefined && Math.abs(at - best.angle) <= ANGLE_NOISE && ahead > best.ahead;
    if (sooner || level) best = { disc, angle: Math.max(at, angle), ahead };
  }
  return best;
}

/** Directions closer than this (radians) are one direction: discs in a row share a tangent. */
const ANGLE_NOISE = 1e-11;
