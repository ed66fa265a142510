import { TAB_END_PLAY, TAB_THICKNESS_PLAY } from "../../features/tab-joint.js";
import { thicknessRange } from "../../fit/layout.js";
import type { Machine } from "../../fit/machine.js";
import type { OwnPlateParameters } from "../../frame/own-plate-parameters.js";
import type { StructuralSheet } from "../../frame/parameters.js";
import { sheetMaterial } from "../../standards/index.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { cutEdge } from "./sources.js";
import { about, addUp, between, jointFinding } from "./stack.js";

type Edge = ReturnType<typeof cutEdge>;

const CURE = "have it cut more exactly, or file the slots";

/**
 * Do tabs enter their slots, across the sheet and along the edge: those of the structural sheet, and those of own plates on
 * whatever sheet they are? And do own plates that cross enter each other's notches?
 *
 * All tabs of an edge go in at once, so each side of each tab counts with its own cut edge and that of its slot: what is
 * left is a side's share of the end play less both.
 */
export function tabInSlot({ parameters }: Machine): readonly Finding[] {
  const edge = cutEdge(parameters.cutting);
  const plates = parameters.plates ?? [];
  const tabbed = [
    { sheet: parameters.sheets.structure, place: "sheets.structure" },
    ...plates
      .filter(({ tabs }) => tabs.length > 0)
      .map(({ id, sheet }) => ({ sheet, place: `plates.${id}` })),
  ];
  const isStructure = ({ material, thickness, measured }: StructuralSheet): boolean => {
    const { structure } = parameters.sheets;
    return (
      material === structure.material && thickness === structure.thickness && measured === structure.measured
    );
  };
  return [
    ...tabbed.map(({ sheet, place }) =>
      across({
        id: "fit.tab-thickness",
        what: "tabs in their slots have play across the sheet",
        opening: "slot, across",
        why: "tab slots are cut for the thickest sheet of the standard, or for the one measured",
        field: isStructure(sheet) ? "sheets.structure.measured" : "the sheet's measured thickness",
        sheet,
        place,
        edge,
      }),
    ),
    ...tabbed.map(({ place }) =>
      jointFinding({
        id: "fit.tab-length",
        place,
        what: "tabs in their slots have play at each end",
        cure: CURE,
        why: "all tabs of an edge enter their slots at once",
        contributions: [
          about("half the end play", TAB_END_PLAY / 2, 0, 1, "end play: own choice"),
          about("end of the slot", 0, edge.deviation, 1, edge.source),
          about("end of the tab", 0, edge.deviation, 1, edge.source),
        ],
        gravest: "warning",
      }),
    ),
    ...plates.flatMap((plate) => lapFindings(plate, plates, edge)),
  ];
}

/** Each of two plates that cross stands in the other's notch, and the ends of the notches meet. */
function lapFindings(
  plate: OwnPlateParameters,
  plates: readonly OwnPlateParameters[],
  edge: Edge,
): readonly Finding[] {
  return plate.laps.flatMap((lap) => {
    const other = plates.find(({ id }) => id === lap.with);
    if (other === undefined) return [];
    const place = `plates.${plate.id} and plates.${other.id}`;
    const notch = (sheet: StructuralSheet): Finding =>
      across({
        id: "fit.lap-thickness",
        what: "plates that cross have play in their notches across the sheet",
        opening: "notch, across",
        why: "notches are cut for the thickest sheet of the standard, or for the one measured",
        field: "the sheet's measured thickness",
        sheet,
        place,
        edge,
      });
    return [
      ...distinctSheets([plate.sheet, other.sheet]).map(notch),
      jointFinding({
        id: "fit.lap-depth",
        place,
        what: "plates that cross have play between the ends of their notches",
        cure: CURE,
        why: "notches that meet too early keep the plates from lining up",
        contributions: [
          about("end play of both notches", TAB_END_PLAY, 0, 1, "end play: own choice"),
          about("end of one notch", 0, edge.deviation, 1, edge.source),
          about("end of the other notch", 0, edge.deviation, 1, edge.source),
        ],
        gravest: "warning",
      }),
    ];
  });
}

function distinctSheets(sheets: readonly StructuralSheet[]): readonly StructuralSheet[] {
  const key = ({ material, thickness, measured }: StructuralSheet): string =>
    `${material} ${thickness} ${measured}`;
  return [...new Map(sheets.map((sheet) => [key(sheet), sheet])).values()];
}

interface Across {
  readonly id: string;
  readonly what: string;
  /** What the sheet goes into. */
  readonly opening: string;
  readonly why: string;
  /** Where a measured thickness is written. */
  readonly field: string;
  readonly sheet: StructuralSheet;
  readonly place: string;
  readonly edge: Edge;
}

/** A tab that may be looser than this for want of a measured sheet deserves more than a note, mm. Own choice. */
const LOOSE = 1.5;

/** The play of a sheet in an opening that is cut for its thickest. */
function across({ sheet, edge, field, opening, ...joint }: Across): Finding {
  const { min, nominal, max } = thicknessRange(sheet);
  const contributions = [
    about(opening, max + TAB_THICKNESS_PLAY, 2 * edge.deviation, 1, edge.source),
    between(
      `${sheet.material} sheet of ${numberText(nominal)} mm`,
      min,
      max,
      -1,
      sheet.measured === undefined
        ? sheetMaterial(sheet.material).thicknessSource
        : "measured by the designer",
    ),
  ];
  const { most } = addUp(contributions);
  const loose = numberText(most);
  const found = jointFinding({
    ...joint,
    remark:
      sheet.measured === undefined
        ? `up to ${loose} mm loose where the sheet is thin: measure it and give ${field}`
        : `at most ${loose} mm`,
    cure: CURE,
    contributions,
    gravest: "warning",
  });
  const rattles = sheet.measured === undefined && most > LOOSE;
  return rattles && found.severity === "note" ? { ...found, severity: "warning" } : found;
}
