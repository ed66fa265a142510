import type { Machine } from "../../fit/machine.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { boreRadius, cutEdge } from "./sources.js";
import { about, addUp, jointFinding } from "./stack.js";

/** Does each carrier enter every pipe that its standard allows, and how loose may it be? A side, mm. */
export function carrierInBore({ ducts, parameters }: Machine): readonly Finding[] {
  const edge = cutEdge(parameters.cutting);
  return ducts.map(({ duct, pipe, fit }) => {
    const contributions = [
      ...boreRadius(pipe),
      about("half the rim", fit.rimRadius, edge.deviation, -1, edge.source),
    ];
    const { most } = addUp(contributions);
    return jointFinding({
      id: "fit.carrier-in-bore",
      place: `${duct.id}.carrier`,
      what: `the rim of ${numberText(2 * fit.rimRadius)} mm in ${pipe.designation} (bore ${numberText(pipe.boreMin)} to ${numberText(pipe.boreMax)} mm) keeps a side`,
      remark: `in the largest bore ${numberText(most)} mm: measure the pipe and give outside, wall and ovality to tighten it`,
      cure: `set carrier.fitGap to at least ${numberText(edge.deviation)} mm`,
      why: "one carrier must enter the tightest pipe the standard allows",
      contributions,
      gravest: "error",
    });
  });
}
