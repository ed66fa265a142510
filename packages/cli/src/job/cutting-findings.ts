import type { Finding } from "@keelcut/geometry";
import type { FrameInput } from "../input/read-frame.js";
import { leastLeadIn } from "../output/lead-ins.js";

/** What the way a job is cut is at odds with itself about, before any plate is looked at. */
export function cuttingFindings(input: FrameInput): readonly Finding[] {
  return [...marginBelowKerf(input), ...laserOnTheLine(input), ...leadInsTooShort(input)];
}

/** A plate against the edge of its strip is cut with half the kerf beyond it. */
function marginBelowKerf({ parameters }: FrameInput): Finding[] {
  const { edgeMargin, kerf, compensation } = parameters.cutting;
  if (edgeMargin >= kerf / 2 - 1e-9) return [];
  const file = compensation === "file";
  return [
    {
      id: "cutting.edge-margin",
      severity: file ? "error" : "warning",
      place: "cutting.edgeMargin",
      message: `an edge margin of ${edgeMargin} mm is less than half the kerf of ${kerf} mm: ${file ? "cut lines leave the sheet" : "the cut leaves the sheet beside a plate at its edge"}; give at least ${kerf / 2} mm`,
      measured: edgeMargin,
      limit: kerf / 2,
      why: file
        ? "shops place the origin at the sheet's corner and refuse what lies outside the sheet"
        : "edges of sheets are seldom straight or square, and clamps hold them",
      source: "common practice of cutting shops",
    },
  ];
}

/** Nobody said who compensates, and of a laser shop it is not to be expected. */
function laserOnTheLine({ parameters, given }: FrameInput): Finding[] {
  const { method, compensation, kerf } = parameters.cutting;
  if (method !== "laser" || compensation !== "shop") return [];
  if (given("frame.cutting.compensation") || given("shop.cutting.compensation")) return [];
  return [
    {
      id: "cutting.laser-compensation",
      severity: "warning",
      place: "cutting.compensation",
      message: `nobody says who moves the cut by half the kerf: many laser shops cut on the line, and plates then come out ${kerf} mm smaller and openings ${kerf} mm larger; ask, and write cutting.compensation: file or shop`,
      measured: kerf,
      why: "compensating twice or not at all spoils every plate",
      source: "common practice of cutting shops",
    },
  ];
}

function leadInsTooShort({ parameters, shop }: FrameInput): Finding[] {
  const { kerf, compensation } = parameters.cutting;
  const length = shop?.files.leadIns?.length;
  if (length === undefined) return [];
  const least = leastLeadIn(
    kerf / 2,
    compensation === "shop" ? { state: "nominal" } : { state: "compensated", kerf },
  );
  if (length >= least) return [];
  return [
    {
      id: "cutting.lead-in-length",
      severity: "warning",
      place: "files.leadIns",
      message: `lead-ins of ${length} mm are shorter than the ${least} mm that this kerf of ${kerf} mm needs, so none is drawn: give files.leadIns: {length: ${Math.ceil(least)}} in the shop profile`,
      measured: length,
      limit: least,
      why: "a shorter stroke shows nothing, or notches the plate where it begins",
      source: "geometry",
    },
  ];
}
