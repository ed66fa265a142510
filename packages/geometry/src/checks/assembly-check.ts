import type { AxisPart, Frame } from "../frame/frame.js";
import type { StrapParameters } from "../frame/parameters.js";
import { measuredThickness } from "../plates/measured-thickness.js";
import type { Vector } from "../plates/plate.js";
import { airBetween, type Cylinder } from "./assembly/axes-meet.js";
import { axisMeetsPlate } from "./assembly/axis-meets-plate.js";
import { inVehicle, type PlacedPlate, placedPlates } from "./assembly/placed-plate.js";
import { platesMeet } from "./assembly/plates-meet.js";
import type { Finding } from "./finding.js";
import { numberText } from "./number-text.js";

/**
 * Puts every plate, rod and pipe in its place in the vehicle and looks for two that fill the same space: a tab without its
 * slot, a rod that meets plate instead of a hole, a bulkhead through a duct, a bottle strapped where a pipe lies. Nominal sizes; the
 * fit checks add tolerances. Bought parts on pods have no known size and are not looked at.
 */
export function checkAssembly(frame: Frame): readonly Finding[] {
  const placed = placedPlates(frame.plates);
  return [
    ...placed.flatMap((a, index) => placed.slice(index + 1).flatMap((b) => clashOf(a, b))),
    ...frame.axes.flatMap((a, index) => frame.axes.slice(index + 1).flatMap((b) => obstructionOf(a, b))),
    ...strappedFindings(frame),
    ...frame.axes.flatMap((part) =>
      placed.flatMap((plate): Finding[] => {
        const met = axisMeetsPlate(part, plate);
        if (met === undefined) return [];
        const at = inVehicle(plate.seat, plate.normal, met.at, measuredThickness(plate.plate.sheet) / 2);
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

/** What is strapped to the deck, between its outermost ties, against pipes, rods and other strapped parts. */
function strappedFindings({ parameters, axes }: Frame): readonly Finding[] {
  const strapped = (parameters.straps ?? []).map((strap) => ({
    place: `straps.${strap.id}`,
    kind: "strapped part",
    ...lyingOnDeck(strap),
  }));
  return strapped.flatMap((part, index) =>
    [...axes, ...strapped.slice(index + 1)].flatMap((other): Finding[] => {
      const air = airBetween(part, other);
      if (air >= 0) return [];
      return [
        {
          id: "fit.strapped-in-the-way",
          severity: "error",
          place: `${part.place} and ${other.place}`,
          message: `what is strapped to the deck runs ${numberText(-air)} mm into the ${other.kind}; move one of them by at least that`,
          measured: air,
          limit: 0,
          why: "two things cannot fill the same space",
          source: "geometry: the part as long as from its first tie to its last",
        },
      ];
    }),
  );
}

function lyingOnDeck({ at, along, count, spacing, diameter }: StrapParameters): Cylinder {
  // One tie tells no length: as good as nothing, but along its axis.
  const half = Math.max(1, (count - 1) * spacing) / 2;
  const end = (side: number): Vector =>
    along === "x" ? [at.x + side * half, at.y, diameter / 2] : [at.x, at.y + side * half, diameter / 2];
  return { from: end(-1), to: end(1), diameter };
}

/** Air between a rod and another rod or a pipe it does not lock, mm. Own choice. */
const ROD_AIR = 2;

/** Pipes among themselves, and rods across the vehicle against pipes, are looked at with the tolerances of the pipes. */
function obstructionOf(a: AxisPart, b: AxisPart): readonly Finding[] {
  const [rod, other] = a.kind === "rod" ? [a, b] : [b, a];
  if (rod.kind === "pipe" || (other.kind === "pipe" && (isAcross(rod) || isOwn(rod, other)))) return [];
  const air = airBetween(rod, other);
  if (air >= ROD_AIR) return [];
  return [
    {
      id: "fit.rod-in-the-way",
      severity: "error",
      place: `${rod.place} and ${other.place}`,
      message: `the rod ${air < 0 ? `runs ${numberText(-air)} mm into` : `passes ${numberText(air)} mm from`} the ${other.kind}; ${ROD_AIR} mm of air are needed: move one of them by at least ${numberText(ROD_AIR - air)} mm`,
      measured: air,
      limit: ROD_AIR,
      why: "a rod may only cross the ducts it locks",
      source: "geometry",
    },
  ];
}

/** Rods of the runs through both cheeks: see `checks/space-check.ts`. */
function isAcross({ place }: AxisPart): boolean {
  return place.startsWith("rods.");
}

/** The short rods of a sway duct lock its own pipe. */
function isOwn(rod: AxisPart, pipe: AxisPart): boolean {
  return rod.place.startsWith(`${pipe.place}.rods.`);
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
