import type { DuctAxis, Frame, HardwareItem, Plate } from "@keelcut/geometry";

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

type Stage =
  | "pipes"
  | "carriers"
  | "stand"
  | "lay"
  | "bulkheads"
  | "rods"
  | "cheeks"
  | "nuts"
  | "skids"
  | "floats"
  | "equip"
  | "rest";

/**
 * The order to put one kit together, inferred from the design: pipes are drilled first, carriers with their motors
 * are built, what needs the bare deck goes on it, rods lock the lying ducts, cheeks and deck close the frame, nuts hold
 * it, skids, foam and equipment follow. Every plate and every piece of hardware is in one step, what holds the cheeks
 * from both sides in two; what no rule knows comes last instead of nowhere.
 */
export function assemblySteps(frame: Frame): readonly AssemblyStep[] {
  const axes = new Map(frame.parameters.ducts.map((duct) => [duct.id, duct.axis]));
  const parts = new Map<Stage, StepPart[]>(STAGES.map(({ stage }) => [stage, []]));
  const add = (stage: Stage, part: StepPart): void => {
    parts.get(stage)?.push(part);
  };
  for (const plate of frame.plates) {
    add(stageOfPlate(plate, [...axes.values()]), { what: plate.name, count: plate.count, places: [] });
  }
  for (const { item, kind, length, uses } of frame.lengths) {
    for (const use of uses) {
      add(kind === "pipe" ? "pipes" : stageOfUse(use, axes, "rods"), {
        what: `${item}, ${length} mm`,
        ...partOf(use),
      });
    }
  }
  for (const { item, kind, uses } of frame.hardware) {
    for (const use of uses) {
      const stages = stagesOfHardware(kind, use, axes);
      for (const stage of stages) {
        add(stage, { what: item, ...partOf({ ...use, count: use.count / stages.length }) });
      }
    }
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

function stageOfPlate(plate: Plate, axes: readonly DuctAxis[]): Stage {
  if (plate.made === "printed") return "pipes";
  const [family = ""] = plate.template.split("-");
  if (family === "deck") return axes.includes("heave") ? "stand" : axes.includes("sway") ? "lay" : "cheeks";
  return PLATE_STAGES[family] ?? "rest";
}

const PLATE_STAGES: Readonly<Record<string, Stage>> = {
  carrier: "carriers",
  bulkhead: "bulkheads",
  cheek: "cheeks",
  handle: "cheeks",
  skid: "skids",
  float: "floats",
  own: "equip",
};

/** Half of what holds a cheek from both sides goes on before the cheek, half after it. */
function stagesOfHardware(
  kind: HardwareItem["kind"],
  use: Use,
  axes: ReadonlyMap<string, DuctAxis>,
): readonly Stage[] {
  if (kind === "motor" || kind === "propeller") return ["carriers"];
  const stage = stageOfUse(use, axes, /pipe/.test(use.why) ? "rods" : "nuts");
  return stage === "nuts" && use.count % 2 === 0 ? ["cheeks", "nuts"] : [stage];
}

/** By the first part of a place: a duct's id, or the family of parts; `across` for the rods through the whole vehicle. */
function stageOfUse({ place }: Use, axes: ReadonlyMap<string, DuctAxis>, across: Stage): Stage {
  const [first = "", second = ""] = place.split(".");
  const axis = axes.get(first);
  if (axis !== undefined) {
    if (second === "motor") return "carriers";
    if (axis === "heave") return "stand";
    return second === "carrier" ? "carriers" : axis === "sway" ? "lay" : "rest";
  }
  return first === "rods" ? across : (PLACE_STAGES[first] ?? "rest");
}

const PLACE_STAGES: Readonly<Record<string, Stage>> = {
  skids: "skids",
  floats: "floats",
  pods: "equip",
  plates: "equip",
  straps: "equip",
  ballast: "equip",
};

const STAGES: readonly { readonly stage: Stage; readonly title: string; readonly text: string }[] = [
  {
    stage: "pipes",
    title: "Saw, mark and drill the pipes",
    text: "Saw each pipe square to length. Where a printed template belongs to it, wrap it around, mark the holes and drill them. Where a motor's wires cannot leave behind its own carrier, drill a hole for them there too: wires never pass a propeller.",
  },
  {
    stage: "carriers",
    title: "Build the carriers",
    text: "Screw each motor to its front plate. Join front and back plate with the spacers between them; lay two lengths of the rod between the spacers while you tighten, and pull them out again, or the rods will not go in later. Lock the nuts, with thread-locker on the metal only, for it attacks many plastics; where the spacer screws also go through the deck, leave that for the deck. Check that the propeller turns freely in its pipe.",
  },
  {
    stage: "stand",
    title: "Stand the upright ducts on the deck",
    text: "Work on the bare deck. Screw each upright duct's carrier to the deck with its spacer screws, stand the pipe over it around the opening, lead the ties through the slots and the pipe's wall and pull them tight.",
  },
  {
    stage: "lay",
    title: "Lay the sway ducts on the deck",
    text: "Slide each carrier into its pipe until its gap lines up with the drilled holes, push the short rods through and put a nut on both sides of the pipe. Lay the duct on the bare deck and tie it down.",
  },
  {
    stage: "bulkheads",
    title: "Stand the bulkheads",
    text: "Press the bulkheads' tabs into the deck and lay the surge ducts into their saddles; a pipe that a bulkhead closes around goes through before it stands.",
  },
  {
    stage: "rods",
    title: "Put the rods through the lying ducts",
    text: "Slide each carrier into its pipe until the gap between its plates lines up with the drilled holes. Push the rods through pipe, gap and pipe, between the spacers. Run the nuts onto each rod as it passes, one for each side of each pipe.",
  },
  {
    stage: "cheeks",
    title: "Set cheeks and deck",
    text: "With a nut and a washer on each rod end, set one cheek on the rods, put the tabs of the deck and of what stands between the cheeks into its slots, then set the other cheek.",
  },
  {
    stage: "nuts",
    title: "Close the frame",
    text: "Press both cheeks home on the deck, put the outer washers and nuts on, square the frame, then tighten: snug, evenly, and locked. Last, draw the nuts at the pipes up.",
  },
  {
    stage: "skids",
    title: "Tie the skids on",
    text: "Set each skid on the feet of its cheek and pull the ties through skid and foot tight, in the notch of the tab below, where they lie off the ground.",
  },
  {
    stage: "floats",
    title: "Stack the floats",
    text: "Lock each upright rod in the deck with a nut and a washer on both sides, thread the foam layers on in their order between the large washers (layers that lie under rods or pipes go in before those do), and turn the nuts down until the foam is held and not crushed.",
  },
  {
    stage: "equip",
    title: "Fit own plates, pods, straps and ballast",
    text: "Set the designer's own plates by their tabs, laps and screws; what reaches into deck and cheeks at once goes in while the frame is still open. Screw the pods to the deck and tie the strapped parts down. Shift the ballast last, afloat.",
  },
  { stage: "rest", title: "Fit what is left", text: "Fit the remaining parts as their place says." },
];
