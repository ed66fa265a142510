import { intersect } from "../../contour/boolean.js";
import { circle, polygon } from "../../contour/build.js";
import type { Point, Region } from "../../contour/contour.js";
import { pointDistance, regionsMeet } from "../../contour/distance.js";
import { locateInRegion } from "../../contour/locate.js";
import { regionArea } from "../../contour/measure.js";
import { clockwise, counterClockwise } from "../../contour/orient.js";
import type { AxisPart } from "../../frame/frame.js";
import { measuredThickness } from "../../plates/measured-thickness.js";
import type { Vector } from "../../plates/plate.js";
import { inPlate, type PlacedPlate } from "./placed-plate.js";
import { dot, minus, unit } from "./vector-3d.js";

/** A part that shares less area than this with a plate touches it, mm2. */
const TOUCH_AREA = 1e-3;

/** How a rod or pipe and a plate are in each other's way. */
export interface Obstruction {
  /** Where, in the plate's own plane. */
  readonly at: Point;
  /** How far one of them has to move at the least, mm; 0 when they only touch. */
  readonly move: number;
  /** Whether that is square to the plate. */
  readonly isSquare: boolean;
}

/**
 * Does a rod or pipe run into the material of a plate? Square through the plate its cross-section must pass an opening;
 * lying along the plate it must stay clear of the slab or of the material under it. Oblique parts do not occur.
 */
export function axisMeetsPlate(part: AxisPart, placed: PlacedPlate): Obstruction | undefined {
  const direction = unit(minus(part.to, part.from));
  if (!boxesOverlap(part, direction, placed)) return undefined;
  const steep = Math.abs(dot(direction, placed.normal));
  if (steep > 1 - 1e-9) return squareThrough(part, placed);
  if (steep < 1e-9) return lyingAlong(part, placed);
  return undefined;
}

/** The box of a cylinder against that of the plate: most parts are nowhere near one. */
function boxesOverlap(
  { from, to, diameter }: AxisPart,
  direction: Vector,
  { min, max }: PlacedPlate,
): boolean {
  return ([0, 1, 2] as const).every((axis) => {
    const reach = (diameter / 2) * Math.sqrt(Math.max(0, 1 - direction[axis] ** 2)) - 1e-6;
    return (
      Math.min(from[axis], to[axis]) - reach < max[axis] && Math.max(from[axis], to[axis]) + reach > min[axis]
    );
  });
}

function squareThrough(part: AxisPart, placed: PlacedPlate): Obstruction | undefined {
  const from = inPlate(placed, part.from);
  const to = inPlate(placed, part.to);
  const low = Math.min(from.height, to.height);
  const high = Math.max(from.height, to.height);
  if (high <= 1e-6 || low >= measuredThickness(placed.plate.sheet) - 1e-6) return undefined;
  const section: Region = {
    outer: circle(from, part.diameter / 2),
    openings: part.bore === undefined ? [] : [clockwise(circle(from, part.bore / 2))],
  };
  if (!regionsMeet(section, placed.plate.region)) return undefined;
  // The nearest edge of material is the least that either has to pass, or to keep clear of.
  const { outer, openings } = placed.plate.region;
  const edge = Math.min(...[outer, ...openings].map((contour) => pointDistance(contour, from)));
  const isInMaterial = locateInRegion(placed.plate.region, from) === "inside";
  const move = part.diameter / 2 + (isInMaterial ? edge : -edge);
  return { at: from, move: Math.max(0, move), isSquare: false };
}

function lyingAlong(part: AxisPart, placed: PlacedPlate): Obstruction | undefined {
  const from = inPlate(placed, part.from);
  const to = inPlate(placed, part.to);
  const radius = part.diameter / 2;
  const off = Math.max(-from.height, 0, from.height - measuredThickness(placed.plate.sheet));
  if (off >= radius - 1e-6) return undefined;
  const wide = Math.sqrt(radius ** 2 - off ** 2);
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const aside = { x: (-(to.y - from.y) / length) * wide, y: ((to.x - from.x) / length) * wide };
  const shadow: Region = {
    outer: counterClockwise(
      polygon([
        { x: from.x - aside.x, y: from.y - aside.y },
        { x: to.x - aside.x, y: to.y - aside.y },
        { x: to.x + aside.x, y: to.y + aside.y },
        { x: from.x + aside.x, y: from.y + aside.y },
      ]),
    ),
    openings: [],
  };
  if (!regionsMeet(shadow, placed.plate.region)) return undefined;
  if (!overlaps(shadow, placed.plate.region)) return undefined;
  const move = radius + Math.min(from.height, measuredThickness(placed.plate.sheet) - from.height);
  return { at: { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }, move, isSquare: true };
}

/** Whether they share more than a touch. */
function overlaps(a: Region, b: Region): boolean {
  return intersect([a], [b]).reduce((sum, region) => sum + regionArea(region), 0) >= TOUCH_AREA;
}
