import type { Finding } from "../checks/finding.js";
import { checkRods } from "../checks/rods-check.js";
import { checkSpace } from "../checks/space-check.js";
import { checkStations } from "../checks/stations-check.js";
import { fitMachine, type Machine } from "../fit/machine.js";
import { collectHardware, collectLengths } from "../hardware/uses.js";
import { cheekDraft } from "../plates/cheek.js";
import type { PlateDraft } from "../plates/compose.js";
import { deckDraft } from "../plates/deck.js";
import { withSharedMeasures } from "../plates/measured-thickness.js";
import type { Contribution, PlateTemplate } from "../plates/template.js";
import { deriveAxes } from "./axes.js";
import { frameDimensions } from "./dimensions.js";
import { ductParts } from "./duct-parts.js";
import type { Frame } from "./frame.js";
import { mergePlates } from "./merge-plates.js";
import type { FrameParameters } from "./parameters.js";
import { rodParts } from "./rod-parts.js";
import { templates } from "./templates.js";

/**
 * From parameters to the whole machine: fits each carrier into its pipe, sets cheeks and deck around the ducts, draws every
 * plate and counts every screw.
 *
 * Parameters that cannot work never throw: they come back as findings of severity `error`, with the plates that could not
 * be drawn left out.
 */
export function deriveFrame(asked: FrameParameters): Frame {
  const parameters = withSharedMeasures(asked);
  const findings: Finding[] = [];
  const machine = fitMachine(parameters, findings);
  const parts = templates.map((template) => contributionOf(template, machine, findings));
  const bought = [ductParts(machine, findings), rodParts(machine)];
  const deckCuts = parts.flatMap((part) => part.deckCuts ?? []);
  const cheekCuts = parts.flatMap((part) => part.cheekCuts ?? []);
  const footTabs = parts.flatMap((part) => part.footTabs ?? []);
  const structure = [
    { name: "deck", contribute: () => ({ plates: [deckDraft(machine, deckCuts)] }) },
    { name: "cheek", contribute: () => ({ plates: [cheekDraft(machine, cheekCuts, footTabs)] }) },
  ].map((template) => contributionOf(template, machine, findings));

  const all = [...structure, ...parts, ...bought];
  const plateCuts = all.flatMap((part) => part.plateCuts ?? []);
  const drafts = all
    .flatMap((part) => part.plates ?? [])
    .map((draft): PlateDraft => {
      const more = plateCuts.filter(({ plate }) => plate === draft.id).map(({ cut }) => cut);
      return more.length === 0 ? draft : { ...draft, cuts: [...draft.cuts, ...more] };
    });
  const plates = mergePlates(drafts);
  findings.push(
    ...all.flatMap((part) => part.findings ?? []),
    ...checkStations(machine.ducts, parameters),
    ...checkRods(parameters, machine.layout, machine.ducts),
    ...checkSpace(parameters, machine.layout, machine.ducts),
  );
  return {
    parameters,
    plates,
    hardware: collectHardware(all.flatMap((part) => part.hardware ?? [])),
    lengths: collectLengths(all.flatMap((part) => part.lengths ?? [])),
    axes: [...deriveAxes(machine), ...all.flatMap((part) => part.axes ?? [])],
    dimensions: frameDimensions(machine, plates),
    findings,
  };
}

/** Runs a template; what the kernel cannot draw becomes a finding instead of a broken plate. */
function contributionOf(template: PlateTemplate, machine: Machine, findings: Finding[]): Contribution {
  try {
    return template.contribute(machine);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    findings.push({
      id: "plate.cannot-be-drawn",
      severity: "error",
      place: template.name,
      message: error.message,
      why: "the sizes leave no closed shape",
      source: "geometry",
    });
    return {};
  }
}
