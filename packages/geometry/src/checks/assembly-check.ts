import type { Frame } from "../frame/frame.js";
import type { Vector } from "../plates/plate.js";
import { axisMeetsPlate } from "./assembly/axis-meets-plate.js";
import { inVehicle, type PlacedPlate, placedPlates } from "./assembly/placed-plate.js";
import { platesMeet } from "./assembly/plates-meet.js";
import type { Finding } from "./finding.js";
import { numberText } from "./number-text.js";

/**
 * Puts every plate, rod and pipe in its place in the vehicle and looks for two that fill the same space: a tab without its
 * slot, a rod that meets plate instead of a hole, a bulkhead through a duct. Nominal sizes; the fit checks add tolerances.
 */
export function checkAssembly(frame: Frame): readonly Finding[] {
  const placed = placedPlates(frame.plates);
  return [
    ...placed.flatMap((a, index) => placed.slice(index + 1).flatMap((b) => clashOf(a, b))),
    ...frame.axes.flatMap((part) =>
      placed.flatMap((plate): Finding[] => {
        const met = axisMeetsPlate(part, plate);
        if (met === undefined) return [];
        const at = inVehicle(plate.seat, plate.normal, met.at, plate.plate.sheet.thickness / 2);
        return [
          {
            id: `fit.${part.kind}-through-plate`,
            severity: "error",
            place: `${part.place} and ${plate.plate.id}`,
            message: `the ${part.kind} runs into the plate near ${pointText(at)}; move one of them by at least ${numberText(met.move)} mm${met.isSquare ? ", square to the plate" : ""}`,
            measured: -met.move,
            limit: 0,
            why: "a rod or pipe passes plates only through their openings",
            source: "geometry",
          },
        ];
      }),
    ),
  ];
}

function clashOf(a: PlacedPlate, b: PlacedPlate): readonly Finding[] {
  const clash = platesMeet(a, b);
  if (clash === undefined) return [];
  return [
    {
      id: "fit.plates-meet",
      severity: "error",
      place: `${a.plate.id} and ${b.plate.id}`,
      message: `the two plates fill the same space near ${pointText(clash.at)}, over ${numberText(clash.size)} mm; move one of them`,
      measured: -clash.size,
      limit: 0,
      why: "plates cross only where a tab has its slot",
      source: "geometry",
    },
  ];
}

function pointText(point: Vector): string {
  return `(${point.map(numberText).join(", ")})`;
}
