import type { Severity } from "../../checks/finding.js";
import type { CuttingMethod } from "../../frame/parameters.js";

/** What can go wrong when a material is cut by a method. An error means: do not cut it so. */
export interface Hazard {
  readonly severity: Severity;
  readonly message: string;
  readonly source: string;
}

export type Hazards = Readonly<Partial<Record<CuttingMethod, Hazard>>>;

/** The built-in hazards of a material by cutting method; none known gives an empty record. */
export function hazardsOf(material: string): Hazards {
  return (Object.hasOwn(hazards, material) ? hazards[material] : undefined) ?? {};
}

const fumes =
  "University lists of prohibited laser materials; laser fume literature (organic polymers pyrolyse to toxic gases, ANSI Z136.1 section 7)";
const practice = "Common practice of cutting shops";

/**
 * Public lists say that PVC gives off "pure chlorine"; the chemistry and the fume literature say hydrogen chloride with
 * traces of phosgene. Either way it is refused.
 */
const pvcOnLaser: Hazard = {
  severity: "error",
  message:
    "never cut PVC with a laser: it gives off hydrogen chloride, which harms lungs and eats the machine",
  source: fumes,
};

const laminate: Hazards = {
  laser: {
    severity: "error",
    message:
      "never cut glass or carbon fibre laminate with a laser: the resin burns to toxic smoke and the fibre is not cut",
    source: fumes,
  },
  router: {
    severity: "warning",
    message:
      "the dust of glass and carbon fibre harms lungs and skin and carbon dust conducts: cut wet or with extraction",
    source: practice,
  },
};

const meltsAndBurns: Hazard = {
  severity: "warning",
  message: "melts to a thick bead and can catch fire under a laser: most shops refuse it, ask first",
  source: "Laser material lists of cutting shops",
};

const foamBurns: Hazard = {
  severity: "warning",
  message: "foam catches fire easily under a laser: most shops refuse it, ask first",
  source: "Laser material lists of cutting shops",
};

const stringyChips: Hazard = {
  severity: "note",
  message: "soft sheet: a dull or many-fluted cutter melts it; use a single-flute cutter",
  source: practice,
};

const brittlePierce: Hazard = {
  severity: "note",
  message: "brittle sheet can crack where the jet pierces: pierce at low pressure or drill a start hole",
  source: "Common practice of waterjet shops, from memory",
};

const reflects: Hazard = {
  severity: "note",
  message: "a carbon dioxide laser for plastics does not cut aluminium: ask for a fibre laser",
  source: practice,
};

const sticksToCutter: Hazard = {
  severity: "note",
  message: "aluminium sticks to the cutter without air or mist, and needs a rigid router",
  source: practice,
};

export const hazards: Readonly<Record<string, Hazards>> = {
  "PVC-U": { laser: pvcOnLaser },
  "PVC foamed": { laser: pvcOnLaser },
  PTFE: {
    laser: {
      severity: "error",
      message:
        "never cut PTFE or other fluoropolymers with a laser: they give off carbonyl fluoride and hydrogen fluoride",
      source: fumes,
    },
  },
  "glass laminate": laminate,
  "carbon laminate": laminate,
  PC: {
    laser: {
      severity: "warning",
      message: "polycarbonate above 1 mm burns, discolours and smokes under a laser: most shops refuse it",
      source: "Laser material lists of cutting shops",
    },
  },
  ABS: {
    laser: {
      severity: "warning",
      message: "ABS melts under a laser and gives off hydrogen cyanide: most shops refuse it",
      source: fumes,
    },
  },
  "POM-C": {
    laser: {
      severity: "warning",
      message: "acetal gives off formaldehyde and burns with an almost invisible flame: needs extraction",
      source: fumes,
    },
  },
  "PE-HD": { laser: meltsAndBurns, router: stringyChips },
  "PP-H": { laser: meltsAndBurns, router: stringyChips },
  "PMMA cast": {
    laser: {
      severity: "note",
      message: "acrylic vapour is flammable: the cut must be watched and extracted",
      source: fumes,
    },
    waterjet: brittlePierce,
  },
  "PMMA extruded": {
    laser: {
      severity: "note",
      message: "acrylic vapour is flammable: the cut must be watched; anneal before solvents touch the edge",
      source: fumes,
    },
    router: stringyChips,
    waterjet: brittlePierce,
  },
  "birch plywood": {
    laser: {
      severity: "note",
      message: "edges char, and phenolic glue lines may stop the beam: ask for laser-grade plywood",
      source: practice,
    },
    waterjet: {
      severity: "warning",
      message: "the jet can split the plies where it pierces and the edges swell",
      source: "Common practice of waterjet shops, from memory",
    },
  },
  "Al 5083": { laser: reflects, router: sticksToCutter },
  "Al 6061": { laser: reflects, router: sticksToCutter },
  XPS: { laser: foamBurns },
  "PE foam": { laser: foamBurns },
};
