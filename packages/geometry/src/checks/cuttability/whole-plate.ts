import { signedArea } from "../../contour/measure.js";
import { TOLERANCE } from "../../contour/tolerance.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import type { Cut } from "./cut.js";
import { longestAtMost, longestExtent, narrowestAtLeast, narrowestExtent } from "./extent.js";

/** Plates that a bed cannot hold, and plates so slender that they move while they are cut. */
export function plateFindings(cut: Cut): Finding[] {
  return [...sizeFindings(cut), ...slendernessFindings(cut)];
}

function sizeFindings(cut: Cut): Finding[] {
  const limit = cut.limit("plate");
  if (narrowestAtLeast(cut.outline.contour) >= limit.value) return [];
  const width = narrowestExtent(cut.outline.contour);
  if (width >= limit.value - TOLERANCE) return [];
  return [
    {
      id: "cuttability.plate-size",
      severity: "warning",
      place: cut.plate.id,
      message: `the plate is only ${numberText(width)} mm wide, a bed holds ${numberText(limit.value)} mm and more: hold it by bridges, or cut several in one piece`,
      measured: width,
      limit: limit.value,
      why: limit.why,
      source: limit.source,
    },
  ];
}

/** Longest extent squared over area: length over width for a strip, 1.3 for a disc. */
function slendernessFindings(cut: Cut): Finding[] {
  const limit = cut.limit("slenderness");
  const area = Math.abs(signedArea(cut.outline.contour));
  if (longestAtMost(cut.outline.contour) ** 2 / area <= limit.value) return [];
  const longest = longestExtent(cut.outline.contour);
  const slenderness = longest ** 2 / area;
  if (slenderness <= limit.value) return [];
  return [
    {
      id: "cuttability.slenderness",
      severity: "warning",
      place: cut.plate.id,
      message: `the plate is ${numberText(longest)} mm long and on average ${numberText(longest / slenderness)} mm wide, ${numberText(slenderness)} times as long as wide: more bridges, or hold it down along its length`,
      measured: slenderness,
      limit: limit.value,
      unit: "1",
      why: limit.why,
      source: limit.source,
    },
  ];
}
