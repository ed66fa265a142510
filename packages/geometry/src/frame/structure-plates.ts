import type { Finding } from "../checks/finding.js";
import type { TabRow } from "../features/tab-joint.js";
import type { Layout } from "../fit/layout.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import { cheekShape } from "../plates/cheek.js";
import { composePlate } from "../plates/compose.js";
import { deckShape, type StandingDuct } from "../plates/deck.js";
import type { Plate } from "../plates/plate.js";
import { drawOrReport } from "./draw-or-report.js";
import type { FrameParameters } from "./parameters.js";

/** Deck and cheeks. */
export function structurePlates(
  parameters: FrameParameters,
  layout: Layout,
  tabs: TabRow,
  relief: number,
  standing: readonly StandingDuct[],
  ducts: readonly FittedDuct[],
  findings: Finding[],
): readonly Plate[] {
  const sheet = parameters.sheets.structure;
  const outer = layout.innerWidth / 2 + sheet.thickness;
  return [
    ...drawOrReport(findings, "deck", () => {
      const shape = deckShape(parameters, layout, tabs, relief, standing, ducts);
      return [
        composePlate({
          id: "deck",
          name: "Deck",
          template: "deck",
          sheet,
          outline: shape.outline,
          outlineWhy: `${layout.innerWidth} mm between the cheeks, with ${tabs.centres.length} tabs a side`,
          cuts: shape.cuts,
          mirrorable: false,
          seats: [{ origin: [0, 0, -sheet.thickness], u: [1, 0, 0], v: [0, 1, 0] }],
        }),
      ];
    }),
    ...drawOrReport(findings, "cheek", () => {
      const shape = cheekShape(parameters, layout, tabs, relief);
      return [
        composePlate({
          id: "cheek",
          name: "Cheek",
          template: "cheek",
          sheet,
          outline: shape.outline,
          outlineWhy: "carries the rods, takes the deck's tabs and stands on two feet",
          cuts: shape.cuts,
          mirrorable: true,
          seats: [
            { origin: [0, outer, 0], u: [1, 0, 0], v: [0, 0, 1] },
            { origin: [0, -layout.innerWidth / 2, 0], u: [1, 0, 0], v: [0, 0, 1] },
          ],
        }),
      ];
    }),
  ];
}
