import {
  asCircle,
  type Box,
  bounds,
  type Contour,
  type Finding,
  type Point,
  signedArea,
  translate,
} from "@keelcut/geometry";
import type { ReadShape } from "../input/import/read-file.js";
import { arcLength, type Deviation, deviation, sameCurve, WRITTEN } from "./compare-contours.js";
import type { ExpectedCut } from "./expected-cuts.js";
import { proofFinding, shownPoint } from "./prove-finding.js";

/** A closed line of a file with its box and its place in cutting order. */
export interface FoundCut {
  readonly shape: ReadShape;
  readonly contour: Contour;
  readonly box: Box;
  readonly order: number;
  /** Place of its last piece: the same but for a line put together over its bridges. */
  readonly lastOrder: number;
  /** All its pieces run one way around. */
  readonly oneWay: boolean;
  /** Middles of the gaps that were closed to read it: its bridges. */
  readonly gaps: readonly Point[];
}

export interface Matched {
  readonly pairs: ReadonlyMap<ExpectedCut, FoundCut>;
  /** Largest error of any matched contour, mm. */
  readonly largest: number;
  readonly findings: readonly Finding[];
}

/** Boxes of a contour and of its cut line differ by no more than this, mm, when they are the same. */
const BOX_SLACK = 20 * WRITTEN;

/** Pairs what a file cuts with what it should cut; what is left on either side is missing, changed or extra. */
export function matchCuts(
  file: string,
  expected: readonly ExpectedCut[],
  found: readonly FoundCut[],
): Matched {
  const free = new Set(found);
  const pairs = new Map<ExpectedCut, FoundCut>();
  const findings: Finding[] = [];
  const missing: ExpectedCut[] = [];
  let largest = 0;
  for (const cut of expected) {
    const box = bounds(cut.cut);
    const match = [...free].find((one) => boxError(one.box, box) <= BOX_SLACK && fits(one.contour, cut));
    if (match === undefined) {
      missing.push(cut);
      continue;
    }
    free.delete(match);
    pairs.set(cut, match);
    largest = Math.max(largest, errorOf(match.contour, cut).distance);
    findings.push(...arcFindings(file, match, cut));
  }
  for (const cut of missing) findings.push(missingFinding(file, cut, free));
  for (const one of free) {
    findings.push(
      proofFinding(
        "extra",
        `${file}, ${one.shape.place}`,
        `${one.shape.source} is cut that belongs to no plate`,
      ),
    );
  }
  return { pairs, largest, findings };
}

/** `outline of deck (copy 2)` */
export function cutName(cut: ExpectedCut): string {
  const part = cut.part === "outline" ? "outline" : `opening ${cut.part}`;
  return `${part} of ${cut.plate} (copy ${cut.copy + 1})`;
}

function fits(found: Contour, cut: ExpectedCut): boolean {
  if (errorOf(found, cut).distance > WRITTEN) return false;
  // Every point is where it should be; equal areas show that none are left out.
  return Math.abs(Math.abs(signedArea(found)) - cut.area) <= areaSlack(found);
}

function errorOf(found: Contour, cut: ExpectedCut): Deviation {
  return cut.offset === 0 ? sameCurve(found, cut.nominal) : deviation(found, cut.nominal, cut.offset);
}

/** What the area changes when the contour moves by the rounding. */
function areaSlack(contour: Contour): number {
  const box = bounds(contour);
  return 4 * WRITTEN * (box.maxX - box.minX + box.maxY - box.minY) + 1e-6;
}

/** Arcs replaced by chords within the tolerance still lose the length of their arcs. */
function arcFindings(file: string, { shape, contour }: FoundCut, cut: ExpectedCut): Finding[] {
  const [has, wants] = [arcLength(contour), arcLength(cut.cut)];
  if (Math.abs(has - wants) <= 1e-4 * wants + 1e-3) return [];
  const message = `${cutName(cut)} has ${has.toFixed(2)} mm of true arcs, expected ${wants.toFixed(2)} mm`;
  return [proofFinding("not-arcs", `${file}, ${shape.place}`, message, has, wants)];
}

/** Names the nearest thing there is, when there is one that could be the missing contour changed. */
function missingFinding(file: string, cut: ExpectedCut, free: Set<FoundCut>): Finding {
  const box = bounds(cut.cut);
  const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  let nearest: FoundCut | undefined;
  let least = Math.max(5, size / 3);
  for (const one of free) {
    const error = boxError(one.box, box);
    if (error < least) [nearest, least] = [one, error];
  }
  if (nearest === undefined) {
    const message = `${cutName(cut)} is missing; expected between ${shownPoint({ x: box.minX, y: box.minY })} and ${shownPoint({ x: box.maxX, y: box.maxY })}`;
    return proofFinding("missing", file, message);
  }
  free.delete(nearest);
  const place = `${file}, ${nearest.shape.place}`;
  const off = worse(deviation(nearest.contour, cut.nominal, cut.offset), sameCurve(nearest.contour, cut.cut));
  if (cut.offset !== 0) {
    const message = `${cutName(cut)} is not ${Math.abs(cut.offset)} mm ${cut.offset > 0 ? "outside" : "inside"} its nominal contour: off by ${off.distance.toFixed(4)} mm at ${shownPoint(off.at)}`;
    return proofFinding("half-kerf", place, message, off.distance, WRITTEN);
  }
  const message = `${cutName(cut)} ${whatChanged(nearest.contour, cut.cut, off)}`;
  return proofFinding("changed", place, message, off.distance, WRITTEN);
}

/** Moved as a whole, another diameter, or how far it is off and where. */
function whatChanged(found: Contour, wanted: Contour, off: Deviation): string {
  const [p, q] = [bounds(found), bounds(wanted)];
  const [dx, dy] = [p.minX - q.minX, p.minY - q.minY];
  if (sameCurve(translate(found, -dx, -dy), wanted).distance <= 10 * WRITTEN) {
    return `is moved by x ${dx.toFixed(4)}, y ${dy.toFixed(4)} mm`;
  }
  const [now, before] = [asCircle(found), asCircle(wanted)];
  if (now !== undefined && before !== undefined) {
    return `has diameter ${(2 * now.radius).toFixed(4)} mm, expected ${(2 * before.radius).toFixed(4)} mm`;
  }
  return `differs by ${off.distance.toFixed(4)} mm at ${shownPoint(off.at)}`;
}

function worse(a: Deviation, b: Deviation): Deviation {
  return a.distance >= b.distance ? a : b;
}

function boxError(a: Box, b: Box): number {
  return Math.max(
    Math.abs(a.minX - b.minX),
    Math.abs(a.minY - b.minY),
    Math.abs(a.maxX - b.maxX),
    Math.abs(a.maxY - b.maxY),
  );
}
