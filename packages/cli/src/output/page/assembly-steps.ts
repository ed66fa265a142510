import type { Frame, HardwareItem, Plate } from "@keelcut/geometry";

/** Something a step uses, of one kit; the same thing for the same reason at several places is one part. */
export interface StepPart {
  readonly what: string;
  readonly count: number;
  readonly places: readonly string[];
  readonly why?: string;
}

export interface AssemblyStep {
  readonly title: string;
  readonly text: string;
  readonly parts: readonly StepPart[];
}

type Stage = "pipes" | "carriers" | "stand" | "rods" | "cheeks" | "nuts" | "rest";

/**
 * The order to put one kit together, inferred from the design: pipes are drilled first, carriers with their motors
 * are built, upright ducts go on the bare deck, rods lock the lying ducts, cheeks and deck close the frame, nuts hold
 * it. Every plate and every piece of hardware is in exactly one step; what no rule knows comes last instead of nowhere.
 */
export function assemblySteps(frame: Frame): readonly AssemblyStep[] {
  const upright = new Set(
    frame.parameters.ducts.filter((duct) => duct.axis === "heave").map((duct) => duct.id),
  );
  const parts = new Map<Stage, StepPart[]>(STAGES.map(({ stage }) => [stage, []]));
  const add = (stage: Stage, part: StepPart): void => {
    parts.get(stage)?.push(part);
  };
  for (const plate of frame.plates) {
    add(stageOfPlate(plate, upright.size > 0), { what: plate.name, count: plate.count, places: [] });
  }
  for (const { item, kind, length, uses } of frame.lengths) {
    for (const use of uses)
      add(kind === "pipe" ? "pipes" : "rods", { what: `${item}, ${length} mm`, ...partOf(use) });
  }
  for (const { item, kind, uses } of frame.hardware) {
    for (const use of uses) add(stageOfHardware(kind, use, upright), { what: item, ...partOf(use) });
  }
  return STAGES.map(({ stage, title, text }) => ({
    title,
    text,
    parts: merged(parts.get(stage) ?? []),
  })).filter((step) => step.parts.length > 0);
}

type Use = { readonly place: string; readonly count: number; readonly why: string };

function partOf({ place, count, why }: Use): Omit<StepPart, "what"> {
  return { count, places: [place], why };
}

function merged(parts: readonly StepPart[]): readonly StepPart[] {
  const byReason = new Map<string, StepPart>();
  for (const part of parts) {
    const key = JSON.stringify([part.what, part.why]);
    const same = byReason.get(key);
    const sum = same && { ...part, count: same.count + part.count, places: [...same.places, ...part.places] };
    byReason.set(key, sum ?? part);
  }
  return [...byReason.values()];
}

const STAGES: readonly { readonly stage: Stage; readonly title: string; readonly text: string }[] = [
  {
    stage: "pipes",
    title: "Saw, mark and drill the pipes",
    text: "Saw each pipe square to length. Where a printed template belongs to it, wrap it around, mark the holes and drill them.",
  },
  {
    stage: "carriers",
    title: "Build the carriers",
    text: "Screw each motor to its front plate. Join front and back plate with the spacers between them and lock the nuts; where the spacer screws also go through the deck, leave that for the deck. Check that the propeller turns freely in its pipe.",
  },
  {
    stage: "stand",
    title: "Stand the upright ducts on the deck",
    text: "Work on the bare deck. Screw each upright duct's carrier to the deck with its spacer screws, stand the pipe over it around the opening, lead the ties through the slots and the pipe's wall and pull them tight.",
  },
  {
    stage: "rods",
    title: "Put the rods through the lying ducts",
    text: "Slide each carrier into its pipe until the gap between its plates lines up with the drilled holes. Push the rods through pipe, gap and pipe, between the spacers. Run the nuts onto each rod as it passes, one for each side of each pipe.",
  },
  {
    stage: "cheeks",
    title: "Set cheeks and deck",
    text: "With a nut and a washer on each rod end, set one cheek on the rods, put the deck's tabs into its slots, then set the other cheek.",
  },
  {
    stage: "nuts",
    title: "Close the frame",
    text: "Press both cheeks home on the deck, put the outer washers and nuts on, square the frame, then tighten: snug, evenly, and locked. Last, draw the nuts at the pipes up.",
  },
  { stage: "rest", title: "Fit what is left", text: "Fit the remaining parts as their place says." },
];

function stageOfPlate(plate: Plate, hasUprightDucts: boolean): Stage {
  if (plate.made === "printed") return "pipes";
  if (plate.template.startsWith("carrier")) return "carriers";
  if (plate.template === "deck") return hasUprightDucts ? "stand" : "cheeks";
  return plate.template === "cheek" ? "cheeks" : "rest";
}

function stageOfHardware(
  kind: HardwareItem["kind"],
  use: { readonly place: string; readonly why: string },
  upright: ReadonlySet<string>,
): Stage {
  const [first = "", second = ""] = use.place.split(".");
  if (kind === "motor" || kind === "propeller" || second === "motor") return "carriers";
  if (kind === "tie") return "stand";
  if (second === "carrier") return upright.has(first) ? "stand" : "carriers";
  if (first === "rods") return /pipe/.test(use.why) ? "rods" : "nuts";
  return kind === "spacer" ? "carriers" : "rest";
}
