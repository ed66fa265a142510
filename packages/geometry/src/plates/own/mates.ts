import type { Contour } from "../../contour/contour.js";
import type { Machine } from "../../fit/machine.js";
import type { OwnPlateParameters } from "../../frame/own-plate-parameters.js";
import { bulkheadSeat } from "../bulkhead.js";
import { cheekSeats } from "../cheek.js";
import type { Cut } from "../compose.js";
import { deckSeat } from "../deck.js";
import { measuredThickness } from "../measured-thickness.js";
import type { Copy } from "./copy.js";
import { type Mate, matingSlot, type PlacedTab } from "./tab-mating.js";

/** A slot that an own plate asks of another plate. */
export interface Asked {
  readonly family: "deck" | "cheek" | "bulkhead" | "own";
  /** Id of the bulkhead or own plate. */
  readonly into: string;
  readonly cut: Cut;
}

/** What the mating of tabs needs of an own plate. */
interface Tabbed {
  readonly plate: OwnPlateParameters;
  readonly outline: Contour;
  readonly tabs: readonly PlacedTab[];
  readonly copies: readonly Copy[];
  readonly nominal: number;
  readonly thickest: number;
}

/** The slots that the tabs of every copy of a plate need in the plates they go into. */
export function slotsAsked(body: Tabbed, others: readonly Tabbed[], machine: Machine): readonly Asked[] {
  return body.plate.tabs.flatMap(({ into }, index) => {
    const tab = body.tabs[index];
    if (tab === undefined) return [];
    const { family, mate } = mateOf(into, others, machine);
    return body.copies.map(
      (copy): Asked => ({
        family,
        into,
        cut: {
          contour: matingSlot(tab, copy, mate, body.nominal, body.thickest, machine.relief),
          kind: "tab-slot",
          name: "tab slot",
          why: `takes a tab of ${body.plate.name}, up to ${body.thickest.toFixed(2)} mm thick`,
        },
      }),
    );
  });
}

/** How far a tab must reach to pass through the plate it goes into, mm. Throws RangeError when there is no such plate. */
export function mateThickness(into: string, { parameters }: Machine): number {
  const own = parameters.plates?.find((plate) => plate.id === into);
  if (isOfFrame(into, parameters.bulkheads)) return measuredThickness(parameters.sheets.structure);
  if (own === undefined) throw noMate(into, parameters);
  return measuredThickness(own.sheet);
}

function mateOf(
  into: string,
  others: readonly Tabbed[],
  machine: Machine,
): { readonly family: Asked["family"]; readonly mate: Mate } {
  const { parameters } = machine;
  const thickness = measuredThickness(parameters.sheets.structure);
  const plain = (seats: readonly Copy["seat"][]): readonly Copy[] =>
    seats.map((seat) => ({ seat, mirrored: false }));
  if (into === "deck") {
    return { family: "deck", mate: { name: "the deck", thickness, copies: plain([deckSeat(parameters)]) } };
  }
  if (into === "cheek") {
    return { family: "cheek", mate: { name: "a cheek", thickness, copies: plain(cheekSeats(machine)) } };
  }
  const bulkhead = parameters.bulkheads?.find(({ id }) => id === into);
  if (bulkhead !== undefined) {
    const copies = plain([bulkheadSeat(bulkhead, parameters)]);
    return { family: "bulkhead", mate: { name: `bulkhead ${into}`, thickness, copies } };
  }
  const own = others.find(({ plate }) => plate.id === into);
  if (own === undefined) throw noMate(into, parameters);
  return {
    family: "own",
    mate: {
      name: own.plate.name,
      thickness: measuredThickness(own.plate.sheet),
      copies: own.copies,
      outline: own.outline,
    },
  };
}

function isOfFrame(into: string, bulkheads: Machine["parameters"]["bulkheads"]): boolean {
  return into === "deck" || into === "cheek" || (bulkheads ?? []).some(({ id }) => id === into);
}

function noMate(into: string, { bulkheads, plates }: Machine["parameters"]): RangeError {
  const known = [
    "deck",
    "cheek",
    ...(bulkheads ?? []).map(({ id }) => id),
    ...(plates ?? []).map(({ id }) => id),
  ];
  return new RangeError(`no plate "${into}" takes tabs; known: ${known.join(", ")}`);
}
