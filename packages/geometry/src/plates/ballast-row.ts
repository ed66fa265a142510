import { obround } from "../contour/build.js";
import type { BallastParameters } from "../frame/parameters.js";
import type { HardwareUse } from "../hardware/uses.js";
import { clearanceHole } from "../standards/index.js";
import type { Cut } from "./compose.js";
import type { PlateTemplate } from "./template.js";

/** Rows of slots in the deck along which weights are shifted until the vehicle lies level. */
export const ballastRows: PlateTemplate = {
  name: "ballast",
  contribute: ({ parameters: { ballast = [] } }) => ({
    deckCuts: ballast.flatMap(rowCuts),
    hardware: ballast.map(weightOf),
  }),
};

/** How a weight is screwed on depends on its shape, which is not known here. */
function weightOf({ id, mass, screw }: BallastParameters): HardwareUse {
  return {
    item: mass === undefined ? `ballast ${id}` : `ballast ${mass} g`,
    kind: "ballast",
    place: `ballast.${id}`,
    count: 1,
    why: `the weight of the whole row; its ${screw} screws go by its shape and are not counted`,
    ...(mass !== undefined && { mass }),
  };
}

function rowCuts(row: BallastParameters): readonly Cut[] {
  const width = clearanceHole(row.screw, "medium");
  const reach = (row.slotLength - width) / 2;
  if (!(reach > 0)) {
    throw new RangeError(
      `ballast ${row.id}: a slot of ${row.slotLength} mm is no longer than it is wide (${width} mm for ${row.screw})`,
    );
  }
  return Array.from({ length: row.count }, (_, index): Cut => {
    const aside = (index - (row.count - 1) / 2) * row.pitch;
    const centre =
      row.along === "x" ? { x: row.at.x, y: row.at.y + aside } : { x: row.at.x + aside, y: row.at.y };
    const step = row.along === "x" ? { x: reach, y: 0 } : { x: 0, y: reach };
    return {
      contour: obround(
        { x: centre.x - step.x, y: centre.y - step.y },
        { x: centre.x + step.x, y: centre.y + step.y },
        width,
      ),
      kind: "slot",
      name: "ballast slot",
      why: `${row.screw} screws of the ballast slide in it`,
    };
  });
}
