import { circle, polygon, rectangle, reversed } from "@keelcut/geometry";
import { assertJob, jobFaults, type NestJob, NestJobError } from "@keelcut/nesting";
import { describe, expect, it } from "vitest";
import { block, job, part, solid, stock } from "./jobs.js";

const sound = job({
  parts: [
    part("a", { outer: rectangle(0, 0, 30, 20), openings: [reversed(circle({ x: 15, y: 10 }, 5))] }),
    part("b", solid(circle({ x: 0, y: 0 }, 4)), { demand: 0, rotations: "any", value: 0 }),
  ],
  stock: [
    stock("s", rectangle(0, 0, 100, 50), { keepOuts: [circle({ x: 50, y: 25 }, 3)] }),
    stock(
      "offcut",
      polygon([
        { x: 0, y: 0 },
        { x: 60, y: 0 },
        { x: 0, y: 60 },
      ]),
      { available: 2, cost: 0 },
    ),
  ],
  effort: {},
});

const bowTie = polygon([
  { x: 0, y: 0 },
  { x: 10, y: 10 },
  { x: 10, y: 0 },
  { x: 0, y: 10 },
]);

/** Each case breaks the sound job in one way; the path must name the place. */
const broken: [string, Partial<NestJob>, string][] = [
  ["negative demand", { parts: [part("a", block(1, 1), { demand: -1 })] }, "parts[0].demand"],
  ["half a plate", { parts: [part("a", block(1, 1), { demand: 1.5 })] }, "parts[0].demand"],
  ["no angle", { parts: [part("a", block(1, 1), { rotations: [] })] }, "parts[0].rotations"],
  [
    "an angle that is no number",
    { parts: [part("a", block(1, 1), { rotations: [0, Number.NaN] })] },
    "parts[0].rotations[1]",
  ],
  ["negative value", { parts: [part("a", block(1, 1), { value: -2 })] }, "parts[0].value"],
  ["empty id", { parts: [part("", block(1, 1))] }, "parts[0].id"],
  ["same id twice", { parts: [part("a", block(1, 1)), part("a", block(2, 1))] }, "parts[1].id"],
  ["self-crossing outline", { parts: [part("a", solid(bowTie))] }, "parts[0].region.outer"],
  [
    "two vertices and no arc",
    {
      parts: [
        part(
          "a",
          solid([
            { x: 0, y: 0, bulge: 0 },
            { x: 1, y: 0, bulge: 0 },
          ]),
        ),
      ],
    },
    "parts[0].region.outer",
  ],
  [
    "infinite corner",
    {
      parts: [
        part(
          "a",
          solid([
            { x: 0, y: 0, bulge: 0 },
            { x: Infinity, y: 0, bulge: 0 },
            { x: 0, y: 1, bulge: 0 },
          ]),
        ),
      ],
    },
    "parts[0].region.outer[1].x",
  ],
  [
    "clockwise outline",
    { parts: [part("a", solid(reversed(rectangle(0, 0, 2, 1))))] },
    "parts[0].region.outer",
  ],
  [
    "opening that runs counter-clockwise",
    { parts: [part("a", { outer: rectangle(0, 0, 9, 9), openings: [circle({ x: 4, y: 4 }, 1)] })] },
    "parts[0].region.openings[0]",
  ],
  [
    "opening outside",
    {
      parts: [part("a", { outer: rectangle(0, 0, 9, 9), openings: [reversed(circle({ x: 40, y: 4 }, 1))] })],
    },
    "parts[0].region.openings[0]",
  ],
  ["clockwise sheet", { stock: [stock("s", reversed(rectangle(0, 0, 2, 1)))] }, "stock[0].outline"],
  ["sheet below zero", { stock: [stock("s", rectangle(-1, 0, 20, 10))] }, "stock[0].outline[0]"],
  [
    "crossed keep-out",
    { stock: [stock("s", rectangle(0, 0, 20, 10), { keepOuts: [bowTie] })] },
    "stock[0].keepOuts[0]",
  ],
  [
    "a third of a sheet",
    { stock: [stock("s", rectangle(0, 0, 20, 10), { available: 1 / 3 })] },
    "stock[0].available",
  ],
  ["negative cost", { stock: [stock("s", rectangle(0, 0, 20, 10), { cost: -1 })] }, "stock[0].cost"],
  [
    "same stock twice",
    { stock: [stock("s", rectangle(0, 0, 2, 1)), stock("s", rectangle(0, 0, 2, 1))] },
    "stock[1].id",
  ],
  ["negative clearance", { clearance: -0.1 }, "clearance"],
  ["clearance that is no number", { clearance: Number.NaN }, "clearance"],
  ["negative edge margin", { edgeMargin: -1 }, "edgeMargin"],
  ["no chord error", { chordError: 0 }, "chordError"],
  ["fractional seed", { seed: 0.5 }, "seed"],
  ["no steps", { effort: { steps: 0 } }, "effort.steps"],
  ["endless seconds", { effort: { seconds: Infinity } }, "effort.seconds"],
];

describe("jobFaults", () => {
  it("has nothing to say about a sound job", () => {
    expect(jobFaults(sound)).toEqual([]);
    expect(() => assertJob(sound)).not.toThrow();
  });

  it.each(broken)("names the place: %s", (_, change, path) => {
    const faults = jobFaults({ ...sound, ...change });
    expect(faults.map((fault) => fault.path)).toEqual([path]);
    expect(faults[0]?.what).not.toBe("");
    expect(faults[0]?.hint).not.toBe("");
  });

  it("shows at most five faults in the message and keeps all", () => {
    const many = job({ parts: [1, 2, 3, 4, 5, 6, 7].map((n) => part(`p${n}`, block(1, 1), { demand: -n })) });
    const error = catchError(() => assertJob(many));
    expect(error).toBeInstanceOf(NestJobError);
    expect((error as NestJobError).faults).toHaveLength(7);
    expect((error as NestJobError).message.split("\n")).toEqual([
      ...[0, 1, 2, 3, 4].map((n) => `parts[${n}].demand: is ${-n - 1}; give a whole number of at least 0`),
      "and 2 more",
    ]);
  });
});

function catchError(run: () => void): unknown {
  try {
    run();
  } catch (error) {
    return error;
  }
  return undefined;
}
