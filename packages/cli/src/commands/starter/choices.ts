import { inputError } from "../../input/input-error.js";
import { didYouMean } from "../../input/nearest-name.js";

/** A pipe that a first frame can be built of. */
export interface StarterPipe {
  readonly standard: string;
  readonly size: string;
  readonly series?: string;
  /** Outside diameter, mm, by which the layout is drawn up. */
  readonly outside: number;
}

export interface StarterMotor {
  /** As people call the pattern: `cross 16x19`. */
  readonly name: string;
  readonly pattern: string;
  readonly screw: string;
  readonly diameter: number;
  readonly length: number;
  readonly threadDepth: number;
  /** Smallest pipe in which its carrier leaves water enough, by outside diameter, mm. */
  readonly leastOutside: number;
}

/** What the questions settle. Every combination that is offered gives a frame without errors. */
export interface StarterChoice {
  readonly pipe: StarterPipe;
  readonly motor: StarterMotor;
  readonly material: string;
  readonly ducts: 2 | 3 | 4;
}

const pipes: readonly StarterPipe[] = [
  ...[75, 90, 110, 125].map((size) => ({ standard: "EN 1329-1", size: String(size), outside: size })),
  ...[110, 125].map((size) => ({ standard: "EN 1401-1", size: String(size), series: "SN4", outside: size })),
  ...[75, 90, 110].map((size) => ({
    standard: "EN 1451-1",
    size: String(size),
    series: "S20",
    outside: size,
  })),
  { standard: "ASTM D1785", size: "3", series: "Schedule 40", outside: 88.9 },
  { standard: "ASTM D1785", size: "4", series: "Schedule 40", outside: 114.3 },
];

const motors: readonly StarterMotor[] = [
  {
    name: "cross 16x19",
    pattern: "{cross: [16, 19]}",
    screw: "M3",
    diameter: 28,
    length: 30,
    threadDepth: 4,
    leastOutside: 75,
  },
  {
    name: "cross 19x25",
    pattern: "{cross: [19, 25]}",
    screw: "M3",
    diameter: 35,
    length: 36,
    threadDepth: 5,
    leastOutside: 88,
  },
  {
    name: "circle 25",
    pattern: "{circle: 25, holes: 4}",
    screw: "M3",
    diameter: 42,
    length: 40,
    threadDepth: 5,
    leastOutside: 110,
  },
];

const materials: readonly string[] = ["PE-HD", "PP-H", "PVC-U"];
const ductCounts: readonly StarterChoice["ducts"][] = [2, 3, 4];

/** What is written when nobody says otherwise. */
export const usualChoice: StarterChoice = {
  pipe: { standard: "EN 1329-1", size: "75", outside: 75 },
  motor: {
    name: "cross 16x19",
    pattern: "{cross: [16, 19]}",
    screw: "M3",
    diameter: 28,
    length: 30,
    threadDepth: 4,
    leastOutside: 75,
  },
  material: "PE-HD",
  ducts: 2,
};

/** Every combination that is offered. */
export function offeredChoices(): readonly StarterChoice[] {
  return pipes.flatMap((pipe) =>
    motorsFor(pipe).flatMap((motor) =>
      materials.flatMap((material) => ductCounts.map((ducts) => ({ pipe, motor, material, ducts }))),
    ),
  );
}

/** Answers as given with flags; what is absent takes the usual. */
export interface StarterFlags {
  readonly pipe?: string;
  readonly motor?: string;
  readonly material?: string;
  readonly ducts?: string;
}

/** One question with the answers it takes; the first is the usual one. */
export interface Question {
  readonly flag: keyof StarterFlags;
  readonly text: string;
  readonly answers: readonly string[];
}

/**
 * Goes through the questions, each depending on the answers before it.
 *
 * @param answer the answer to a question, one of those it offers
 */
export async function chosen(answer: (question: Question) => Promise<string>): Promise<StarterChoice> {
  const pick = async <T>(
    flag: Question["flag"],
    text: string,
    offers: readonly T[],
    nameOf: (offer: T) => string,
  ): Promise<T> => {
    const answers = offers.map(nameOf);
    const given = await answer({ flag, text, answers });
    const found = offers[answers.indexOf(given)];
    if (found === undefined) throw new RangeError(`"${given}" is not among the answers`);
    return found;
  };
  const pipe = await pick("pipe", "Pipe around the motors (standard and size)", pipes, pipeName);
  const motor = await pick("motor", "Bolt pattern of the motors", motorsFor(pipe), ({ name }) => name);
  const material = await pick("material", "Sheet for deck and cheeks, 10 mm", materials, String);
  const ducts = await pick("ducts", "Ducts: 2 push forward, 3 and 4 also push up", ductCounts, String);
  return { pipe, motor, material, ducts };
}

/** The answer a flag gives. Throws InputError naming what is offered. */
export function flagAnswer({ flag, answers }: Question, flags: StarterFlags): string {
  const given = flags[flag];
  if (given === undefined) return answers[0] ?? "";
  const wanted = plain(given);
  const found = answers.find((answer) => plain(answer) === wanted);
  if (found !== undefined) return found;
  const guess = didYouMean(given, answers);
  throw inputError(
    `--${flag}`,
    `"${given}" is not offered here${guess || ""}; offered: ${answers.join(", ")}`,
  );
}

/** Spaces and case do not matter. */
function plain(text: string): string {
  return text.toLowerCase().replace(/\s+/g, "");
}

function motorsFor(pipe: StarterPipe): readonly StarterMotor[] {
  return motors.filter(({ leastOutside }) => leastOutside <= pipe.outside);
}

function pipeName({ standard, size }: StarterPipe): string {
  return `${standard} ${size}`;
}
