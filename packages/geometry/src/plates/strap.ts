import { type StrapPlace, strapPlace } from "../features/strap-slots.js";
import type { Machine } from "../fit/machine.js";
import type { StrapParameters } from "../frame/parameters.js";
import type { HardwareUse } from "../hardware/uses.js";
import type { Cut } from "./compose.js";
import { measuredThickness } from "./measured-thickness.js";
import type { Contribution, PlateTemplate } from "./template.js";

/** Cable ties around round things that lie on the deck: batteries, bottles, sensor tubes. */
export const straps: PlateTemplate = {
  name: "strap",
  contribute: (machine) => {
    const parts = (machine.parameters.straps ?? []).map((strap) => tieDown(strap, machine));
    return {
      deckCuts: parts.flatMap((part) => part.deckCuts ?? []),
      hardware: parts.flatMap((part) => part.hardware ?? []),
    };
  },
};

function tieDown(strap: StrapParameters, machine: Machine): Contribution {
  const { parameters } = machine;
  const places = Array.from({ length: strap.count }, (_, index) => {
    const shift = (index - (strap.count - 1) / 2) * strap.spacing;
    const at =
      strap.along === "x"
        ? { x: strap.at.x + shift, y: strap.at.y }
        : { x: strap.at.x, y: strap.at.y + shift };
    return strapPlace(
      at,
      strap.along,
      strap.diameter,
      measuredThickness(parameters.sheets.structure),
      parameters.ties,
      parameters.cutting,
    );
  });
  const place = `straps.${strap.id}`;
  const ties = strapContribution(places, strap.id, place, machine);
  const part: HardwareUse = {
    item: `part ${strap.id}`,
    kind: "part",
    place,
    count: 1,
    why: "tied to the deck",
    ...(strap.body && { mass: strap.body.mass }),
  };
  return { ...ties, hardware: [part, ...(ties.hardware ?? [])] };
}

/** Slots in the deck and ties to buy. */
export function strapContribution(
  places: readonly StrapPlace[],
  what: string,
  place: string,
  { parameters }: Machine,
): Contribution {
  return {
    deckCuts: places.flatMap(({ slots }) =>
      slots.map(
        (contour): Cut => ({
          contour,
          kind: "tie-slot",
          name: "strap slot",
          why: `cable tie around ${what}`,
        }),
      ),
    ),
    hardware: places.map(({ tieLength, needed }) => ({
      item: `tie ${parameters.ties.width}x${tieLength}`,
      kind: "tie",
      place,
      count: 1,
      why: `around ${what} and under the deck needs ${needed.toFixed(0)} mm`,
    })),
  };
}
