import type { Machine } from "../../fit/machine.js";
import type { Frame } from "../../frame/frame.js";
import { standardPiece } from "../../hardware/mass.js";
import type { Vector } from "../../plates/plate.js";
import { type Body, solid } from "./body.js";

/** Screws, nuts, washers, spacers and ties, each at the part it belongs to. */
export function hardwareBodies({ hardware }: Frame, machine: Machine): readonly Body[] {
  return hardware.flatMap((item) => {
    const piece = standardPiece(item);
    if (piece === undefined) return [];
    return item.uses.map(({ place, count }) =>
      solid(
        "screws, nuts, washers, spacers and ties",
        piece.volume * count,
        piece.density,
        placeOf(place, machine),
        "sizes of ISO 4762, 4032, 7089, 7093-1; steel 7900, aluminium 2700, nylon 1140 kg/m3, from memory",
      ),
    );
  });
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
