import { congruenceKey } from "../../contour/congruence.js";
import type { Contour, Point } from "../../contour/contour.js";
import { pointDistance } from "../../contour/distance.js";
import { contourCentroid } from "../../contour/measure.js";
import { offsetContour, offsetRegion } from "../../contour/offset.js";
import { counterClockwise } from "../../contour/orient.js";
import { type ArcSegment, asCircle, pointAt, type Segment, segments } from "../../contour/segment.js";
import { TOLERANCE } from "../../contour/tolerance.js";
import { rememberedBy } from "../../remember.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { type Cut, type CutContour, counted, grouped, isDrilled } from "./cut.js";
import { longestAtMost, longestExtent } from "./extent.js";
import { insideCorners } from "./inside-corners.js";
import { isReachedEverywhere } from "./reach.js";

/** How many shapes are remembered. */
const SHAPES = 2000;

/** Openings and notches that the cut cannot pass, and the cores that fall out of openings. */
export function openingFindings(cut: Cut): Finding[] {
  return [...narrowOpenings(cut), ...narrowNotches(cut), ...looseCores(cut)];
}

function narrowOpenings(cut: Cut): Finding[] {
  const limit = cut.limit("opening");
  const { kerf, method } = cut.cutting;
  const narrow = cut.openings.flatMap((opening) => {
    const circle = asCircle(opening.contour);
    const round = circle !== undefined;
    if (circle !== undefined && isDrilled(2 * circle.radius, cut.drills) && isInFile(2 * circle.radius, cut))
      return [];
    const width = widthBelow(opening.contour, Math.max(limit.value, kerf));
    if (width === undefined) return [];
    return [
      {
        alike: `${opening.name} ${numberText(width)} ${round}`,
        at: contourCentroid(opening.contour),
        name: opening.name,
        width,
        round,
      },
    ];
  });
  return grouped(narrow).map((group): Finding => {
    const { name, width, round } = group[0];
    const passes = width > kerf + TOLERANCE;
    // A round hole that a cutter does not enter can still be drilled, unless the file itself has to hold it.
    const drilled = method === "router" && round && isInFile(width, cut);
    const cure = drilled
      ? "have it drilled, widen it or use a smaller cutter"
      : "widen it or use a smaller kerf";
    const problem = passes
      ? `${numberText(width)} mm wide, less than the ${numberText(limit.value)} mm this cut needs`
      : `${numberText(width)} mm wide, the cut itself is ${numberText(kerf)} mm`;
    return {
      id: "cuttability.opening",
      severity: passes || drilled ? "warning" : "error",
      place: cut.plate.id,
      message: `${counted(name, group)}: ${problem}; ${cure}`,
      measured: width,
      limit: Math.max(limit.value, kerf),
      why: limit.why,
      source: limit.source,
    };
  });
}

/** A compensated line of an opening narrower than the kerf would vanish. */
function isInFile(width: number, { cutting }: Cut): boolean {
  return cutting.compensation === "shop" || width > cutting.kerf + TOLERANCE;
}

/**
 * The least width of an opening, mm, when it is less than `limit`: the widest disc that still passes through all of it, to
 * 0.001 mm. Undefined when a disc of the limit passes.
 */
function widthBelow(opening: Contour, limit: number): number | undefined {
  const asRound = asCircle(opening);
  if (asRound !== undefined) return 2 * asRound.radius < limit - TOLERANCE ? 2 * asRound.radius : undefined;
  const slot = asObround(opening);
  if (slot !== undefined) return slot.width < limit - TOLERANCE ? slot.width : undefined;
  return oddWidthBelow(opening, limit);
}

/** The same shape is cut many times, turned and moved: its width is measured once. */
const oddWidthBelow = rememberedBy(
  SHAPES,
  (opening: Contour, limit: number) => `${congruenceKey(opening)} ${limit}`,
  measuredWidthBelow,
);

function measuredWidthBelow(opening: Contour, limit: number): number | undefined {
  // A disc exactly as wide as the opening passes, but its path has no area: the hair lets it keep one.
  const passes = (width: number): boolean => offsetContour(opening, -(width - HAIR) / 2).length === 1;
  if (passes(limit)) return undefined;
  let [low, high] = [2 * HAIR, limit];
  while (high - low > 0.001) {
    const middle = (low + high) / 2;
    if (passes(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Ten tolerances of the kernel, mm. */
const HAIR = 10 * TOLERANCE;

/** Notches that are narrower than the cut, in the outline and in openings that the cut passes otherwise. */
function narrowNotches(cut: Cut): Finding[] {
  const { kerf } = cut.cutting;
  const passed = cut.openings.filter(({ contour }) => widthBelow(contour, kerf) === undefined);
  return [cut.outline, ...passed].flatMap((of) => {
    const worst = narrowNotch(of, kerf);
    if (worst === undefined) return [];
    const where = of.isOutline ? "the outline" : `the ${of.name}`;
    return [
      {
        id: "cuttability.notch",
        severity: "error" as const,
        place: cut.plate.id,
        message: `${where} has a notch at (${numberText(worst.at.x)}, ${numberText(worst.at.y)}) that is narrower than the cut of ${numberText(kerf)} mm: it would stay uncut; widen it or use a smaller kerf`,
        measured: worst.beyond,
        limit: 0,
        why: "a cut cannot enter a notch that is narrower than itself",
        source: "geometry",
      },
    ];
  });
}

/**
 * The place of a contour that the cut stays farthest away from, beyond what a corner explains: there two sides are too close
 * together. What the cut reaches is the material grown by its radius and shrunk back.
 */
function narrowNotch(of: CutContour, kerf: number): { at: Point; beyond: number } | undefined {
  if (isConvex(of) || isReachedEverywhere(of, kerf / 2)) return undefined;
  // A cut exactly as wide as the opening has no area left to follow.
  const reached = reachedBy(of, (kerf - HAIR) / 2);
  if (reached.length === 0) return undefined;
  const corners = insideCorners(of, kerf / 2);
  const most = Math.max(0, ...corners.map(({ uncut }) => uncut));
  const probes: readonly { at: Point; explained: number }[] = [
    ...corners.map(({ at, uncut }) => ({ at, explained: uncut })),
    ...segments(of.contour).map((piece) => ({ at: pointAt(piece, 0.5), explained: most })),
  ];
  return probes
    .map(({ at, explained }) => ({
      at,
      beyond: Math.min(...reached.map((contour) => pointDistance(contour, at))) - explained,
    }))
    .filter(({ beyond }) => beyond > NOTCH_SLACK)
    .sort((a, b) => b.beyond - a.beyond)[0];
}

function reachedBy({ contour, isOutline }: CutContour, radius: number): Contour[] {
  const [first, back] = isOutline ? [radius, -radius] : [-radius, radius];
  // Regions, not contours: the wide end of a keyhole becomes an opening, which has to grow where the outline shrinks.
  return offsetRegion({ outer: counterClockwise(contour), openings: [] }, first)
    .flatMap((moved) => offsetRegion(moved, back))
    .flatMap(({ outer, openings }) => [outer, ...openings]);
}

/** Grown and shrunk curves are exact to the tolerance; less than this left in a notch is not worth an error, mm. */
const NOTCH_SLACK = 0.01;

function isConvex(of: CutContour): boolean {
  const bendsInwards = segments(of.contour).some((piece) => piece.kind === "arc" && piece.sweep < 0);
  return !bendsInwards && insideCorners(of, 1).length === 0;
}

function looseCores(cut: Cut): Finding[] {
  const limit = cut.limit("core");
  const cores = cut.openings
    .map(({ contour, name }) => ({ name, extent: coreExtent(contour, cut.cutting.kerf, limit.value) }))
    .filter(({ extent }) => extent >= limit.value)
    .sort((a, b) => b.extent - a.extent);
  const largest = cores[0];
  if (largest === undefined) return [];
  const many =
    cores.length === 1 ? "one opening leaves a loose core" : `${cores.length} openings leave loose cores`;
  return [
    {
      id: "cuttability.core",
      severity: "note",
      place: cut.plate.id,
      message: `${many} of ${numberText(limit.value)} mm and more (the largest, from the ${largest.name}, ${numberText(largest.extent)} mm long)`,
      measured: largest.extent,
      limit: limit.value,
      why: limit.why,
      source: limit.source,
    },
  ];
}

/** How long the piece is that falls out of an opening, mm; 0 when the cut clears all of it or it is below `least`. */
function coreExtent(opening: Contour, kerf: number, least: number): number {
  const round = asCircle(opening);
  if (round !== undefined) return Math.max(0, 2 * (round.radius - kerf));
  const slot = asObround(opening);
  if (slot !== undefined) return slot.width > 2 * kerf + TOLERANCE ? slot.length - 2 * kerf : 0;
  if (longestAtMost(opening) - 2 * kerf < least) return 0;
  return oddCoreExtent(opening, kerf, least);
}

const oddCoreExtent = rememberedBy(
  SHAPES,
  (opening: Contour, kerf: number, least: number) => `${congruenceKey(opening)} ${kerf} ${least}`,
  (opening: Contour, kerf: number, least: number) =>
    longestExtent(opening) - 2 * kerf < least
      ? 0
      : Math.max(0, ...offsetContour(opening, -kerf).map(longestExtent)),
);

/** Width and length over all when a contour is a slot with round ends; most openings that are not round are. */
function asObround(contour: Contour): { readonly width: number; readonly length: number } | undefined {
  const pieces = segments(contour);
  const [a, b, c, d] = pieces;
  if (pieces.length !== 4 || a === undefined || b === undefined || c === undefined || d === undefined) return;
  const [arcs, lines] =
    a.kind === "arc"
      ? [
          [a, c],
          [b, d],
        ]
      : [
          [b, d],
          [a, c],
        ];
  const [first, second] = arcs.filter(isHalfCircle);
  if (first === undefined || second === undefined || lines.some((piece) => piece.kind !== "line")) return;
  if (Math.abs(first.radius - second.radius) > TOLERANCE) return;
  const apart = Math.hypot(first.center.x - second.center.x, first.center.y - second.center.y);
  return { width: 2 * first.radius, length: apart + 2 * first.radius };
}

function isHalfCircle(piece: Segment): piece is ArcSegment {
  return piece.kind === "arc" && Math.abs(Math.abs(piece.sweep) - Math.PI) < 1e-6;
}
