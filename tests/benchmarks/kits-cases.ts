import { rectangle } from "../../packages/geometry/dist/index.js";
import type { BatchJob, BatchPart } from "../../packages/nesting/dist/index.js";
import { seededRandom } from "../../packages/nesting/dist/random.js";

/** A job whose fewest sheets are known. */
export interface KnownCase {
  readonly name: string;
  readonly job: BatchJob;
  readonly optimum: number;
}

export function knownCases(steps: number): KnownCase[] {
  const jigsaws = [1, 2, 3, 4].map((seed): KnownCase => {
    const copies = 10 * seed;
    return { name: `jigsaw ${seed}, ${copies} sheets`, job: jigsaw(seed, copies, steps), optimum: copies };
  });
  return [
    ...jigsaws,
    {
      // Encyclopedia article "Cutting stock problem", paper machine example; from memory.
      name: "paper mill, 13 widths",
      job: bars(
        5600,
        [1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200],
        [22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20],
        steps,
      ),
      optimum: 73,
    },
    {
      // V. Chvatal, Linear Programming, 1983, chapter 13; from memory.
      name: "Chvatal's rolls, 4 widths",
      job: bars(100, [45, 36, 31, 14], [97, 610, 395, 211], steps),
      optimum: 453,
    },
  ];
}

/** Sheets of 1000 x 600 cut whole into rectangles by halving at random, every sheet alike. */
function jigsaw(seed: number, sheets: number, steps: number): BatchJob {
  const random = seededRandom(seed);
  const pieces: [number, number][] = [[1000, 600]];
  while (pieces.length < 5 + seed) {
    pieces.sort((a, b) => b[0] * b[1] - a[0] * a[1]);
    const [length, width] = pieces.shift() as [number, number];
    const share = 0.3 + 0.4 * random();
    const [along, across] = [Math.round(length * share), Math.round(width * share)];
    if (length >= width) pieces.push([along, width], [length - along, width]);
    else pieces.push([length, across], [length, width - across]);
  }
  const parts = pieces.map(([length, width], index) => part(`p${index}`, length, width, sheets));
  return job(parts, 1000, 600, seed, steps);
}

function bars(length: number, sizes: readonly number[], counts: readonly number[], steps: number): BatchJob {
  const parts = sizes.map((size, index) => part(`w${size}`, size, 50, counts[index] as number));
  return job(parts, length, 50, 1, steps);
}

function part(id: string, length: number, width: number, demand: number): BatchPart {
  const region = { outer: rectangle(0, 0, length, width), openings: [] };
  return { id, region, demand, rotations: [0], mirrorable: false };
}

function job(
  parts: readonly BatchPart[],
  length: number,
  width: number,
  seed: number,
  steps: number,
): BatchJob {
  const outline = rectangle(0, 0, length, width);
  return {
    parts,
    stock: [{ id: "sheet", outline, keepOuts: [], available: "unlimited", cost: 1 }],
    clearance: 0,
    edgeMargin: 0,
    chordError: 0.1,
    seed,
    effort: { steps },
  };
}
