import { intersect } from "../../contour/boolean.js";
import { circle, polygon } from "../../contour/build.js";
import type { Point, Region } from "../../contour/contour.js";
import { regionsMeet } from "../../contour/distance.js";
import { regionArea } from "../../contour/measure.js";
import { clockwise, counterClockwise } from "../../contour/orient.js";
import type { AxisPart } from "../../frame/frame.js";
import type { Vector } from "../../plates/plate.js";
import { inPlate, type PlacedPlate } from "./placed-plate.js";
import { dot, minus, unit } from "./vector-3d.js";

/** A part that shares less area than this with a plate touches it, mm2. */
const TOUCH_AREA = 1e-3;

/** How a rod or pipe and a plate are in each other's way. */
export interface Obstruction {
  /** Where, in the plate's own plane. */
  readonly at: Point;
  /** Negative: they fill the same space. Otherwise the distance that is left, mm. */
  readonly gap: number;
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
  if (high <= 1e-6 || low >= placed.plate.sheet.thickness - 1e-6) return undefined;
  const section: Region = {
    outer: circle(from, part.diameter / 2),
    openings: part.bore === undefined ? [] : [clockwise(circle(from, part.bore / 2))],
  };
  if (!regionsMeet(section, placed.plate.region)) return undefined;
  return { at: from, gap: -overlap(section, placed.plate.region) };
}

function lyingAlong(part: AxisPart, placed: PlacedPlate): Obstruction | undefined {
  const from = inPlate(placed, part.from);
  const to = inPlate(placed, part.to);
  const radius = part.diameter / 2;
  const off = Math.max(-from.height, 0, from.height - placed.plate.sheet.thickness);
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
  const shared = overlap(shadow, placed.plate.region);
  return shared === 0 ? undefined : { at: { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }, gap: -shared };
}

/** Square root of the common area, mm; 0 when they only touch. */
function overlap(a: Region, b: Region): number {
  const area = intersect([a], [b]).reduce((sum, region) => sum + regionArea(region), 0);
  return area < TOUCH_AREA ? 0 : Math.sqrt(area);
}
