import { circle } from "../contour/build.js";
import { strapPlace } from "../features/strap-slots.js";
import { pipeNutSeat } from "../fit/layout.js";
import type { Machine } from "../fit/machine.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import type { AxisPart } from "../frame/frame.js";
import { endNut } from "../hardware/end-nut.js";
import { rodSolid, solidMass } from "../hardware/mass.js";
import { rodLength } from "../hardware/screw-length.js";
import { thread } from "../standards/index.js";
import type { Cut } from "./compose.js";
import { measuredThickness } from "./measured-thickness.js";
import { strapContribution } from "./strap.js";
import type { Contribution, PlateTemplate } from "./template.js";

/** Distance of a tie from the pipe's end, mm. Own choice. */
const TIE_FROM_END = 15;

/**
 * Ducts across the vehicle: they lie on the deck under two cable ties, look out through an opening in each cheek, and are
 * locked by short rods of their own, fore and aft.
 */
export const swayDucts: PlateTemplate = {
  name: "sway duct",
  contribute: (machine) => {
    const parts = machine.ducts
      .filter((fitted) => fitted.duct.axis === "sway")
      .map((fitted) => layDuct(fitted, machine));
    return {
      deckCuts: parts.flatMap((part) => part.deckCuts ?? []),
      cheekCuts: parts.flatMap((part) => part.cheekCuts ?? []),
      hardware: parts.flatMap((part) => part.hardware ?? []),
      lengths: parts.flatMap((part) => part.lengths ?? []),
      axes: parts.flatMap((part) => part.axes ?? []),
    };
  },
};

function layDuct(fitted: FittedDuct, machine: Machine): Contribution {
  const { parameters } = machine;
  const { duct, pipe, middle } = fitted;
  const places = [-1, 1].map((end) =>
    strapPlace(
      { x: middle.x, y: middle.y + end * (duct.length / 2 - TIE_FROM_END) },
      "y",
      pipe.outsideWorst,
      measuredThickness(parameters.sheets.structure),
      parameters.ties,
      parameters.cutting,
    ),
  );
  const ties = strapContribution(places, duct.id, `${duct.id}.ties`, machine);
  const { thread: rod } = parameters.rods;
  const over = 2 * pipeNutSeat(fitted, parameters);
  const length = rodLength(rod, over, parameters.nuts);
  const count = 2 * fitted.stations.length;
  const opening: Cut = {
    contour: circle({ x: middle.x, y: middle.z }, pipe.boreMin / 2),
    kind: "window",
    name: "sway opening",
    why: `the water of ${duct.id} passes through the cheek`,
  };
  return {
    deckCuts: ties.deckCuts ?? [],
    cheekCuts: [opening],
    lengths: [
      {
        item: `rod DIN 976 ${rod}`,
        kind: "rod",
        length,
        place: `${duct.id}.rods`,
        count,
        mass: solidMass(rodSolid(rod, length)),
        why: `through the pipe, ${over.toFixed(1)} mm between its nuts, with room for a washer, a nut and two threads at each end`,
      },
    ],
    hardware: [
      ...(ties.hardware ?? []),
      {
        item: endNut(rod, parameters.nuts).item,
        kind: "nut",
        place: `${duct.id}.rods`,
        count: 2 * count,
        why: "one on each side of the pipe",
      },
    ],
    axes: fitted.stations.flatMap((y, station) =>
      [-1, 1].map(
        (level): AxisPart => ({
          kind: "rod",
          place: `${duct.id}.rods.${station + 1}.${level < 0 ? "lower" : "upper"}`,
          from: [middle.x - length / 2, y, middle.z + (level * fitted.fit.rodPitch) / 2],
          to: [middle.x + length / 2, y, middle.z + (level * fitted.fit.rodPitch) / 2],
          diameter: thread(rod).major,
        }),
      ),
    ),
  };
}
