import { TAB_END_PLAY, TAB_THICKNESS_PLAY } from "../../features/tab-joint.js";
import type { Machine } from "../../fit/machine.js";
import { sheetMaterial } from "../../standards/index.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { cutEdge } from "./sources.js";
import { about, addUp, between, jointFinding } from "./stack.js";

/**
 * Do the tabs of the structural sheet enter their slots, across the sheet and along the edge?
 *
 * All tabs of an edge go in at once, so each side of each tab counts with its own cut edge and that of its slot: what is
 * left is a side's share of the end play less both.
 */
export function tabInSlot({ layout, parameters }: Machine): readonly Finding[] {
  const edge = cutEdge(parameters.cutting);
  const { structure } = parameters.sheets;
  const { min, nominal, max } = layout.structure;
  const across = [
    about("slot, across", max + TAB_THICKNESS_PLAY, 2 * edge.deviation, 1, edge.source),
    between(
      `${structure.material} sheet of ${numberText(nominal)} mm`,
      min,
      max,
      -1,
      structure.measured === undefined
        ? sheetMaterial(structure.material).thicknessSource
        : "measured by the designer",
    ),
  ];
  const loose = addUp(across).most;
  const cure = "have it cut more exactly, or file the slots";
  return [
    jointFinding({
      id: "fit.tab-thickness",
      place: "sheets.structure",
      what: "tabs in their slots have play across the sheet",
      remark:
        structure.measured === undefined
          ? `up to ${numberText(loose)} mm loose where the sheet is thin: measure it and give sheets.structure.measured`
          : `at most ${numberText(loose)} mm`,
      cure,
      why: "tab slots are cut for the thickest sheet of the standard, or for the one measured",
      contributions: across,
      gravest: "warning",
    }),
    jointFinding({
      id: "fit.tab-length",
      place: "sheets.structure",
      what: "tabs in their slots have play at each end",
      cure,
      why: "all tabs of an edge enter their slots at once",
      contributions: [
        about("half the end play", TAB_END_PLAY / 2, 0, 1, "end play: own choice"),
        about("end of the slot", 0, edge.deviation, 1, edge.source),
        about("end of the tab", 0, edge.deviation, 1, edge.source),
      ],
      gravest: "warning",
    }),
  ];
}
