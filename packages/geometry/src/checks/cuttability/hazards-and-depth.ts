import { hazardsOf } from "../../standards/sheets/hazards.js";
import { isSheetMaterial } from "../../standards/sheets/sheet-materials.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import type { Cut } from "./cut.js";

/** What follows from material, thickness and method alone, before any contour is looked at. */
export function inputFindings(cut: Cut): Finding[] {
  return [...hazardFindings(cut), ...depthFindings(cut)];
}

function hazardFindings({ plate, cutting }: Cut): Finding[] {
  const { material } = plate.sheet;
  const hazard = hazardsOf(material)[cutting.method];
  if (hazard !== undefined) {
    return [
      {
        id: "cuttability.hazard",
        severity: hazard.severity,
        place: plate.id,
        message: `${material} by ${cutting.method}: ${hazard.message}`,
        why: "what the cut does to people and machines comes before the shape",
        source: hazard.source,
      },
    ];
  }
  if (cutting.method !== "laser" || isSheetMaterial(material)) return [];
  return [
    {
      id: "cuttability.hazard",
      severity: "warning",
      place: plate.id,
      message: `${material} is not in the table of sheet materials: never cut a plastic by laser before it is known to hold no chlorine or fluorine`,
      why: "halogenated plastics give off corrosive and poisonous gas under a laser",
      source: "University lists of prohibited laser materials",
    },
  ];
}

function depthFindings(cut: Cut): Finding[] {
  const { plate, cutting } = cut;
  const limit = cut.limit("depth");
  const { thickness } = plate.sheet;
  if (thickness <= limit.value) return [];
  const cure =
    cutting.method === "router"
      ? `ask for a cutter with at least ${numberText(thickness)} mm of cutting edge, or a thicker one`
      : "ask the shop";
  return [
    {
      id: "cuttability.depth",
      severity: "note",
      place: plate.id,
      message: `the sheet is ${numberText(thickness)} mm thick, a ${cutting.method} with a kerf of ${numberText(cutting.kerf)} mm usually cuts to ${numberText(limit.value)} mm: ${cure}`,
      measured: thickness,
      limit: limit.value,
      why: limit.why,
      source: limit.source,
    },
  ];
}
