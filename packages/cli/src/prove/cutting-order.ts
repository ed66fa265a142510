import { type Finding, locate } from "@keelcut/geometry";
import type { ExpectedCut } from "./expected-cuts.js";
import { cutName, type FoundCut } from "./match-cuts.js";
import { proofFinding } from "./prove-finding.js";

/**
 * Every opening before the outline of its plate, and what lies in an opening before that opening: else a piece falls
 * out while it still has to be cut.
 */
export function orderFaults(file: string, pairs: ReadonlyMap<ExpectedCut, FoundCut>): Finding[] {
  const outlines = [...pairs].filter(([cut]) => cut.part === "outline");
  const findings: Finding[] = [];
  for (const [cut, found] of pairs) {
    if (cut.part === "outline") continue;
    for (const [outline, line] of outlines) {
      const own = outline.copy === cut.copy;
      const first = own ? found : line;
      const second = own ? line : found;
      if (!own && !liesIn(outline, cut)) continue;
      if (first.lastOrder < second.order) continue;
      const names = own ? [cutName(cut), cutName(outline)] : [cutName(outline), cutName(cut)];
      const message = `${names[0]} must be cut before ${names[1]}`;
      findings.push(proofFinding("order", `${file}, ${first.shape.place}`, message));
    }
  }
  return findings;
}

function liesIn(outline: ExpectedCut, opening: ExpectedCut): boolean {
  const point = outline.nominal[0];
  return point !== undefined && locate(opening.nominal, point) === "inside";
}
