import type { Caution, PageModel } from "./model.js";

/** What of a job decides its cautions. */
export type CautionedJob = Pick<PageModel, "frame" | "plates" | "held">;

/** Chooses the cautions a job calls for from its materials, cutting method and hardware; the last one always stands. */
export function chooseCautions(job: CautionedJob): readonly Caution[] {
  return chosen(CAUTIONS, job);
}

/** Those of them that concern whoever cuts the sheets. */
export function cuttingCautions(job: CautionedJob): readonly Caution[] {
  return chosen(
    CAUTIONS.filter(({ atTheMachine }) => atTheMachine),
    job,
  );
}

function chosen(rules: readonly CautionRule[], job: CautionedJob): readonly Caution[] {
  return rules
    .filter(({ applies }) => applies(job))
    .map(({ title, text, source }) => ({ title, text, source }));
}

interface CautionRule extends Caution {
  /** Concerns the cutting shop. */
  readonly atTheMachine?: true;
  readonly applies: (job: CautionedJob) => boolean;
}

const CAUTIONS: readonly CautionRule[] = [
  {
    title: "Never cut PVC with a laser",
    atTheMachine: true,
    text: "Burning PVC gives off hydrogen chloride, which harms lungs and eyes and corrodes the machine. This job holds PVC: cut it with a router or a waterjet only. The same holds for PTFE and every other halogenated or unknown plastic.",
    source: "University laser-safety rules; ANSI Z136.1, clause 7.3 (as cited there)",
    applies: (job) => cutMaterials(job).some((material) => /PVC|PTFE/i.test(material)),
  },
  {
    title: "Laser fumes and fire",
    atTheMachine: true,
    text: "Every plastic gives off harmful fumes under a laser, and polyolefins, foams and ABS melt and burn. Use extraction and filtering, stay at the machine while it cuts, and keep an extinguisher at hand.",
    source: "ANSI Z136.1, clause 7.3 (organic polymers under laser light)",
    applies: (job) => method(job) === "laser",
  },
  {
    title: "Chips, dust and a spinning cutter",
    atTheMachine: true,
    text: "Clamp every sheet and every plate that comes free, wear eye and ear protection, no gloves or loose sleeves near the spindle. Use extraction: the fine dust of plastics and wood irritates and can burn or explode.",
    source: "NFPA 652 (combustible dust); common practice",
    applies: (job) => method(job) === "router",
  },
  {
    title: "High-pressure jet",
    atTheMachine: true,
    text: "A waterjet cuts flesh and bone and injects abrasive under the skin. Keep hands out of the machine while the pump runs; an injection wound is an emergency even when it looks small.",
    source: "Common practice",
    applies: (job) => method(job) === "waterjet",
  },
  {
    title: "Plates come loose as they are cut",
    atTheMachine: true,
    text: "Nothing in these files holds every plate. Agree with the shop on vacuum, screws in the waste, tape or holding tabs before it cuts, or ask for bridges in the shop profile: a loose plate under a running cutter is thrown or spoiled, and under a jet it drops into the tank.",
    source: "Common practice of cutting shops",
    applies: (job) => job.held === false,
  },
  {
    title: "Sharp edges, drilling and sawing",
    text: "Deburr plates and pipes before you handle them. Clamp a pipe in a V-block to drill it: a drill that catches spins the pipe.",
    source: "Common practice",
    applies: () => true,
  },
  {
    title: "Propellers start without warning",
    text: "Keep fingers, hair and cables away from the ducts whenever a battery is connected. Set up motors without propellers; disconnect the battery before you touch one.",
    source: "Common practice",
    applies: (job) => job.frame.hardware.some((item) => item.kind === "motor" || item.kind === "propeller"),
  },
  {
    title: "Batteries and water",
    text: "Lithium cells that leak, short or are crushed can burn, also under water. Fuse them at the battery, test housings for leaks before a battery goes in, charge under supervision, and let a flooded pack rest outdoors before anybody opens it.",
    source: "Common practice; follow the cell maker's data sheet and UN 38.3 when shipping",
    applies: (job) => job.frame.hardware.some((item) => item.kind === "motor"),
  },
  {
    title: "Lifting and launching",
    atTheMachine: true,
    text: "Whole sheets and a flooded vehicle are heavier than they look. Lift sheets with two people, lift the vehicle by its cheeks or their handles, never by rods, which bend, nor by ducts or cables, and mind wet decks and cold water.",
    source: "Common practice",
    applies: () => true,
  },
  {
    title: "Rules and qualified people come first",
    atTheMachine: true,
    text: "This page is computed from the numbers it was given. Local codes, the shop's and the waters' rules and the judgement of qualified people come before anything written here. Have loads, electrics and pressure housings checked by someone qualified before people rely on them.",
    source: "",
    applies: () => true,
  },
];

function cutMaterials({ plates }: CautionedJob): readonly string[] {
  return plates.filter((plate) => plate.made === "cut").map((plate) => plate.sheet.material);
}

function method({ frame }: CautionedJob): string {
  return frame.parameters.cutting.method;
}
