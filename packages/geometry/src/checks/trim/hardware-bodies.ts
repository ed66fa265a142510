import type { Machine } from "../../fit/machine.js";
import type { Frame, HardwareItem } from "../../frame/frame.js";
import type { Vector } from "../../plates/plate.js";
import {
  cableTie,
  capScrew,
  hexNut,
  largeWasher,
  plainWasher,
  roundSpacer,
  thread,
} from "../../standards/index.js";
import { type Body, solid } from "./body.js";
import { STEEL } from "./part-bodies.js";

/** kg/m3: nylon 6/6 of ties, aluminium of spacers. From memory. */
const NYLON = 1140;
const ALUMINIUM = 2700;

/** Screws, nuts, washers, spacers and ties, each at the part it belongs to. */
export function hardwareBodies({ hardware }: Frame, machine: Machine): readonly Body[] {
  return hardware.flatMap((item) => {
    const volume = volumeOf(item);
    if (volume === undefined) return [];
    const density = item.kind === "tie" ? NYLON : item.kind === "spacer" ? ALUMINIUM : STEEL;
    return item.uses.map(({ place, count }) =>
      solid(
        "screws, nuts, washers, spacers and ties",
        volume * count,
        density,
        placeOf(place, machine),
        "sizes of ISO 4762, 4032, 7089, 7093-1; steel 7900, aluminium 2700, nylon 1140 kg/m3, from memory",
      ),
    );
  });
}

/** mm3 of one piece, by its designation; undefined for motors and other bought things. */
function volumeOf({ item, kind }: HardwareItem): number | undefined {
  const size = item.match(/M\d+(?:\.\d)?/)?.[0];
  const length = Number(item.match(/x(\d+(?:\.\d+)?)/)?.[1]);
  const disc = (outside: number, inside: number): number => (Math.PI / 4) * (outside ** 2 - inside ** 2);
  if (kind === "tie") {
    const width = Number(item.match(/tie ([\d.]+)x/)?.[1]);
    return width * cableTie(width).thickness * length;
  }
  if (size === undefined) return undefined;
  switch (kind) {
    case "screw": {
      const { headDiameterMax, headHeightMax } = capScrew(size);
      return disc(headDiameterMax, 0) * headHeightMax + disc(thread(size).pitchDiameter, 0) * length;
    }
    case "nut": {
      const { acrossFlats, heightMax } = hexNut(size);
      return ((Math.sqrt(3) / 2) * acrossFlats ** 2 - disc(thread(size).pitchDiameter, 0)) * heightMax;
    }
    case "washer": {
      const { outside, bore, thickness } = item.includes("7093") ? largeWasher(size) : plainWasher(size);
      return disc(outside, bore) * thickness;
    }
    case "spacer": {
      const { outside, bore } = roundSpacer(size);
      return disc(outside, bore) * length;
    }
    default:
      return undefined;
  }
}

/** Where a use of hardware is, by the name of its place; the deck's middle when the name tells nothing. */
function placeOf(place: string, { ducts, layout, parameters }: Machine): Vector {
  const [head = "", name = ""] = place.split(".");
  const duct = ducts.find((fitted) => fitted.duct.id === head);
  if (duct !== undefined) return [duct.middle.x, duct.middle.y, duct.middle.z];
  if (head === "rods") {
    const run = layout.runs[Number(name) - 1];
    return run === undefined ? [0, 0, 0] : [run.x, 0, (run.z[0] + run.z[1]) / 2];
  }
  if (head === "skids") return [0, 0, -parameters.cheek.below];
  const onDeck = [
    ...(parameters.pods ?? []),
    ...(parameters.straps ?? []),
    ...(parameters.ballast ?? []),
  ].find(({ id }) => id === name);
  if (onDeck !== undefined) return [onDeck.at.x, onDeck.at.y, 0];
  const float = (parameters.floats ?? []).find(({ id }) => id === name);
  if (float === undefined) return [0, 0, 0];
  return [(float.from.x + float.to.x) / 2, (float.from.y + float.to.y) / 2, float.bottom];
}
