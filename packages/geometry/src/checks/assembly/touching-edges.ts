import type { Point } from "../../contour/contour.js";
import { locate } from "../../contour/locate.js";
import { measuredThickness } from "../../plates/measured-thickness.js";
import type { Plate } from "../../plates/plate.js";
import { inPlate, inVehicle, type PlacedPlate, placedPlates } from "./placed-plate.js";

/** Nearer than this to a plate's faces an edge lies against them or in them, mm: the play of a tab and more. */
const REACH = 0.5;

/**
 * Tells for points on a plate's edge whether another plate lies against it or around it in the vehicle: along the sides
 * and ends of tabs, and where an edge stands on another plate's face. An edge that must fit holds no leftover of a cut.
 *
 * A plate without seats touches nothing.
 */
export function touchingEdges(plates: readonly Plate[]): (plate: Plate, point: Point) => boolean {
  const placed = placedPlates(plates);
  return (plate, point) =>
    placed
      .filter((copy) => copy.plate.id === plate.id)
      .some((copy) => {
        const at = inVehicle(copy.seat, copy.normal, point, measuredThickness(plate.sheet) / 2);
        return placed.some((other) => other !== copy && holds(other, at));
      });
}

/** Openings count as material: a tab lies in one. */
function holds(other: PlacedPlate, at: readonly [number, number, number]): boolean {
  for (const axis of [0, 1, 2] as const) {
    if (at[axis] < other.min[axis] - REACH || at[axis] > other.max[axis] + REACH) return false;
  }
  const local = inPlate(other, at);
  if (local.height < -REACH || local.height > measuredThickness(other.plate.sheet) + REACH) return false;
  return locate(other.plate.region.outer, local) !== "outside";
}
