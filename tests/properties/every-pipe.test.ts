import { join } from "node:path";
import {
  asCircle,
  checkFrame,
  deriveFrame,
  type Finding,
  type Frame,
  type FrameParameters,
  featureContour,
  type Plate,
  type Seat,
  smallestBore,
  type Vector,
} from "@keelcut/geometry";
import { beforeAll, describe, expect, test } from "vitest";
import { readFrame } from "../../packages/cli/src/input/read-frame.js";
import { pipeTables } from "../../packages/geometry/src/standards/pipes/pipe.js";

/*
 * A designer takes the example, names any pipe of the catalog, and either gets a frame that assembles in space, or is told what
 * to change and by how much. Every pipe is tried in the thrust ducts, and in the duct that stands on the deck.
 */

const every = pipeTables.flatMap((table) =>
  table.rows.map((row) => ({
    standard: table.standard,
    size: row.size,
    series: row.series,
    bore: smallestBore(row),
  })),
);

let example: FrameParameters;
beforeAll(async () => {
  const root = join(import.meta.dirname, "..", "..");
  example = (await readFrame("examples/teal/frame.yaml", [], root)).parameters;
});

interface Outcome {
  readonly name: string;
  readonly bore: number;
  readonly frame: Frame;
  readonly errors: readonly Finding[];
}

function withEveryPipe(ducts: readonly string[]): readonly Outcome[] {
  return every.map(({ bore, ...pipe }) => {
    const changed = example.ducts.map((duct) => (ducts.includes(duct.id) ? { ...duct, pipe } : duct));
    const frame = deriveFrame({ ...example, ducts: changed });
    const errors = checkFrame(frame).filter(({ severity }) => severity === "error");
    return { name: `${pipe.standard} ${pipe.size} ${pipe.series}`, bore, frame, errors };
  });
}

function inVehicle(seat: Seat, x: number, y: number): Vector {
  const [a, b, c] = seat.origin;
  return [
    a + x * seat.u[0] + y * seat.v[0],
    b + x * seat.u[1] + y * seat.v[1],
    c + x * seat.u[2] + y * seat.v[2],
  ];
}

/** The middles in the vehicle of all round holes of a name or kind, once for each copy of the plate. */
function holes(
  plates: readonly Plate[],
  isMeant: (name: string, kind: string) => boolean,
): readonly Vector[] {
  return plates.flatMap((plate) =>
    plate.features.flatMap((feature): Vector[] => {
      if (!isMeant(feature.name, feature.kind)) return [];
      const round = asCircle(featureContour(plate, feature));
      if (round === undefined) throw new Error(`${plate.id}: ${feature.name} is not round`);
      return plate.seats.map((seat) => inVehicle(seat, round.center.x, round.center.y));
    }),
  );
}

/** Distance of a point from the straight line through two others. */
function fromLine(point: Vector, from: Vector, to: Vector): number {
  const along = [to[0] - from[0], to[1] - from[1], to[2] - from[2]] as const;
  const length = Math.hypot(...along);
  const off = [point[0] - from[0], point[1] - from[1], point[2] - from[2]] as const;
  const t = (off[0] * along[0] + off[1] * along[1] + off[2] * along[2]) / length ** 2;
  return Math.hypot(off[0] - t * along[0], off[1] - t * along[1], off[2] - t * along[2]);
}

/** Independent of the assembly check: holes that belong together lie on one line. */
function expectCoincidingAxes({ name, frame }: Outcome): void {
  const cut = frame.plates.filter(({ made }) => made === "cut");
  const rods = frame.axes.filter(({ kind }) => kind === "rod");
  const rodHoles = holes(cut, (_, kind) => kind === "rod-hole");
  expect(rodHoles.length, name).toBeGreaterThanOrEqual(2 * rods.length);
  for (const hole of rodHoles) {
    expect(Math.min(...rods.map(({ from, to }) => fromLine(hole, from, to))), name).toBeLessThan(1e-9);
  }
  for (const { from, to } of rods) {
    const on = rodHoles.filter((hole) => fromLine(hole, from, to) < 1e-9);
    expect(on.length, name).toBeGreaterThanOrEqual(2);
  }
  // Spacer screws pass front plate and back plate, which lie square to the duct: one coordinate differs, two agree.
  const spacers = (side: string): readonly Vector[] =>
    holes(
      cut.filter(({ template }) => template.startsWith(`carrier-${side}`)),
      (what) => what === "spacer screw hole",
    );
  const [front, back] = [spacers("front"), spacers("back")];
  expect(front.length, name).toBe(4 * frame.parameters.ducts.length);
  expect(back.length, name).toBe(front.length);
  for (const one of front) {
    const off = back.map((other) => {
      const apart = [0, 1, 2]
        .map((axis) => Math.abs((one[axis] ?? 0) - (other[axis] ?? 0)))
        .sort((a, b) => a - b);
      return (apart[1] ?? 0) + ((apart[2] ?? 0) > 40 ? 1 : 0);
    });
    expect(Math.min(...off), name).toBeLessThan(1e-9);
  }
}

function expectNumbers({ name }: Outcome, error: Finding): void {
  const said = `${name}: ${error.id}: ${error.message}`;
  expect(error.measured, said).toBeTypeOf("number");
  expect(error.limit, said).toBeTypeOf("number");
  expect(error.measured, said).not.toBe(error.limit);
  expect(error.message, said).toMatch(
    /(at least|at most|more than|less than|or more|needs?|needed|below|by) ?\(?-?\d/,
  );
  expect(error.message, said).not.toMatch(/NaN|Infinity|undefined/);
}

/** `use a pipe with a bore of at least 59.11 mm` must be true of every pipe that has one. */
function expectTrueBores(outcomes: readonly Outcome[]): number {
  let promises = 0;
  for (const { name, errors } of outcomes) {
    for (const { id, message } of errors) {
      const [, stated] = /a bore of (?:at least|more than) ([\d.]+) mm/.exec(message) ?? [];
      if (stated === undefined) continue;
      promises += 1;
      const broken = outcomes.filter(
        (other) => other.bore > Number(stated) + 0.1 && other.errors.some((error) => error.id === id),
      );
      expect(
        broken.map((other) => `${other.name} (${other.bore})`),
        `${name}: ${message}`,
      ).toEqual([]);
    }
  }
  return promises;
}

describe.each([
  ["the thrust ducts", ["port", "starboard"]],
  ["the standing duct", ["heave"]],
] as const)("every pipe of the catalog in %s", (_, ducts) => {
  test("assembles in space, or says what to change and by how much", () => {
    const outcomes = withEveryPipe(ducts);
    const working = outcomes.filter(({ errors }) => errors.length === 0);
    expect(outcomes.length).toBeGreaterThan(100);
    expect(working.length).toBeGreaterThan(30);
    expect(working.length).toBeLessThan(outcomes.length);
    for (const outcome of working) expectCoincidingAxes(outcome);
    for (const outcome of outcomes) for (const error of outcome.errors) expectNumbers(outcome, error);
    expect(expectTrueBores(outcomes)).toBeGreaterThan(30);
  }, 60_000);
});
