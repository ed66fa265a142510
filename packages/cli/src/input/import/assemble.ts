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

/** mm */
const DOUBLE_CELL = 0.1;

function withoutDoubles(contours: readonly ReadContour[], findings: Finding[]): ReadContour[] {
  const kept: ReadContour[] = [];
  // By the left end of their boxes, in cells far wider than equal contours may lie apart.
  const cells = new Map<number, ReadContour[]>();
  for (const contour of contours) {
    const cell = Math.floor(bounds(contour.vertices).minX / DOUBLE_CELL);
    const near = [-1, 0, 1].flatMap((step) => cells.get(cell + step) ?? []);
    const double = near.find((other) => sameContour(other.vertices, contour.vertices));
    if (double === undefined) {
      kept.push(contour);
      cells.set(cell, [...(cells.get(cell) ?? []), contour]);
    } else {
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
  const neighbours = meetingBoxes(contours);
  contours.forEach((a, index) => {
    for (const other of neighbours[index] ?? []) {
      const b = contours[other];
      if (b === undefined || other <= index || !contoursCross(a.vertices, b.vertices)) continue;
      crossing.add(a);
      crossing.add(b);
      findings.push(importFinding("crossing", "error", b.place, `it crosses ${a.place}`));
    }
  });
  return contours.filter((contour) => !crossing.has(contour));
}

/** For each contour the others whose boxes meet its own, ascending. Cost: that of pairs that share some x. */
function meetingBoxes(contours: readonly BoxedContour[]): number[][] {
  const found: number[][] = contours.map(() => []);
  const byLeft = [...contours.entries()].sort(([, a], [, b]) => a.box.minX - b.box.minX);
  let open: [number, BoxedContour][] = [];
  for (const [index, contour] of byLeft) {
    open = open.filter(([, { box }]) => box.maxX >= contour.box.minX);
    for (const [other, { box }] of open) {
      if (box.minY > contour.box.maxY || contour.box.minY > box.maxY) continue;
      found[index]?.push(other);
      found[other]?.push(index);
    }
    open.push([index, contour]);
  }
  return found.map((others) => others.sort((a, b) => a - b));
}

function nest(contours: readonly BoxedContour[]): Region[] {
  const neighbours = meetingBoxes(contours);
  const holders = contours.map((contour, index) =>
    (neighbours[index] ?? []).filter((other) => {
      const around = contours[other];
      return around !== undefined && lies(contour, around);
    }),
  );
  const openings: BoxedContour[][] = contours.map(() => []);
  holders.forEach((around, child) => {
    // What holds all the others that hold it, but not those, holds it next.
    const next = around.find((holder) => holders[holder]?.length === around.length - 1);
    const contour = contours[child];
    if (next !== undefined && contour !== undefined) openings[next]?.push(contour);
  });
  return contours.flatMap((contour, index): Region[] => {
    if ((holders[index]?.length ?? 0) % 2 !== 0) return [];
    return [
      {
        outer: counterClockwise(contour.vertices),
        openings: (openings[index] ?? []).map((opening) => clockwise(opening.vertices)),
      },
    ];
  });
}

/** Whether one of two contours that do not cross lies in the other. */
function lies(inner: BoxedContour, outer: BoxedContour): boolean {
  if (inner.area >= outer.area) return false;
  for (const vertex of inner.vertices) {
    const side = locate(outer.vertices, vertex);
    if (side !== "on") return side === "inside";
  }
  return false;
}
