import {
  type Box,
  bounds,
  type Contour,
  clockwise,
  contourFaults,
  contoursCross,
  counterClockwise,
  type Finding,
  locate,
  type Region,
  signedArea,
} from "@keelcut/geometry";
import { joinEnds, type ReadContour } from "./join-ends.js";
import { importFinding, type ReadShape } from "./read-file.js";

/** What shapes come to: regions, and everything that is wrong with the rest. */
export interface Assembled {
  readonly regions: readonly Region[];
  readonly findings: readonly Finding[];
}

/** Points closer than this along one line are one point, mm: below any machine's step. */
const SAME_POINT = 1e-5;

/**
 * Sorts shapes into regions: ends joined within `tolerance` (mm), doubles left out with a finding, contours sorted by
 * how deep they lie in others: outlines at even depth, openings at odd.
 */
export function assemble(shapes: readonly ReadShape[], tolerance: number): Assembled {
  const joined = joinEnds(shapes, tolerance);
  const findings: Finding[] = [...joined.findings];
  const sound = joined.contours.flatMap((contour) => clean(contour, findings));
  const single = withoutDoubles(sound, findings);
  const apart = withoutCrossing(single.map(boxed), findings);
  return { regions: nest(apart), findings };
}

/** Regions of closed contours that are known to be simple, single and apart. */
export function regionsOf(contours: readonly ReadContour[]): Region[] {
  return nest(contours.map(boxed));
}

interface BoxedContour extends ReadContour {
  readonly box: Box;
  readonly area: number;
}

function boxed(contour: ReadContour): BoxedContour {
  const { layer, place, vertices } = contour;
  return { layer, place, vertices, box: bounds(vertices), area: Math.abs(signedArea(vertices)) };
}

/** Points that repeat are dropped; what is still no simple contour is an error. */
function clean(contour: ReadContour, findings: Finding[]): ReadContour[] {
  const vertices = contour.vertices.filter((vertex, index, all) => {
    const next = all[(index + 1) % all.length];
    return next === undefined || Math.hypot(next.x - vertex.x, next.y - vertex.y) > SAME_POINT;
  });
  const dropped = contour.vertices.length - vertices.length;
  if (dropped > 0 && vertices.length > 1) {
    findings.push(
      importFinding("repeated-point", "note", contour.place, `${dropped} repeated points left out`),
    );
  }
  const fault = contourFaults(vertices)[0];
  if (fault === undefined) return [{ ...contour, vertices }];
  const message = `the contour is unusable: ${fault.what.replaceAll("-", " ")} near x ${fault.at.x.toFixed(3)}, y ${fault.at.y.toFixed(3)}`;
  findings.push(importFinding("contour", "error", contour.place, message));
  return [];
}

function withoutDoubles(contours: readonly ReadContour[], findings: Finding[]): ReadContour[] {
  const kept: ReadContour[] = [];
  for (const contour of contours) {
    const double = kept.find((other) => sameContour(other.vertices, contour.vertices));
    if (double === undefined) kept.push(contour);
    else {
      const message = `the same contour as ${double.place}: left out, it would be cut twice`;
      findings.push(importFinding("double", "warning", contour.place, message));
    }
  }
  return kept;
}

/** Same length of outline and box, and every vertex of one on the other. */
function sameContour(a: Contour, b: Contour): boolean {
  const [boxA, boxB] = [bounds(a), bounds(b)];
  const off = Math.max(
    Math.abs(boxA.minX - boxB.minX),
    Math.abs(boxA.minY - boxB.minY),
    Math.abs(boxA.maxX - boxB.maxX),
    Math.abs(boxA.maxY - boxB.maxY),
  );
  if (off > 1e-3) return false;
  const size = Math.max(1, boxA.maxX - boxA.minX + boxA.maxY - boxA.minY);
  if (Math.abs(Math.abs(signedArea(a)) - Math.abs(signedArea(b))) > 1e-3 * size) return false;
  return (
    a.every((vertex) => locate(b, vertex, 1e-3) === "on") &&
    b.every((vertex) => locate(a, vertex, 1e-3) === "on")
  );
}

function withoutCrossing(contours: readonly BoxedContour[], findings: Finding[]): BoxedContour[] {
  const crossing = new Set<BoxedContour>();
  contours.forEach((a, index) => {
    for (const b of contours.slice(index + 1)) {
      if (!boxesMeet(a.box, b.box) || !contoursCross(a.vertices, b.vertices)) continue;
      crossing.add(a);
      crossing.add(b);
      findings.push(importFinding("crossing", "error", b.place, `it crosses ${a.place}`));
    }
  });
  return contours.filter((contour) => !crossing.has(contour));
}

function boxesMeet(p: Box, q: Box): boolean {
  return p.minX <= q.maxX && q.minX <= p.maxX && p.minY <= q.maxY && q.minY <= p.maxY;
}

function nest(contours: readonly BoxedContour[]): Region[] {
  const holders = contours.map((contour) =>
    contours.flatMap((other, index) => (other !== contour && lies(contour, other) ? [index] : [])),
  );
  const regions: Region[] = [];
  contours.forEach((contour, index) => {
    const depth = holders[index]?.length ?? 0;
    if (depth % 2 !== 0) return;
    const openings = contours.filter((_, child) => {
      const around = holders[child] ?? [];
      return around.length === depth + 1 && around.includes(index);
    });
    regions.push({
      outer: counterClockwise(contour.vertices),
      openings: openings.map((opening) => clockwise(opening.vertices)),
    });
  });
  return regions;
}

/** Whether one of two contours that do not cross lies in the other. */
function lies(inner: BoxedContour, outer: BoxedContour): boolean {
  if (!boxesMeet(inner.box, outer.box) || inner.area >= outer.area) return false;
  for (const vertex of inner.vertices) {
    const side = locate(outer.vertices, vertex);
    if (side !== "on") return side === "inside";
  }
  return false;
}
