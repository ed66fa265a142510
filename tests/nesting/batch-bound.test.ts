import { circle, clockwise, type Point } from "@keelcut/geometry";
import { planBatch } from "@keelcut/nesting";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { solveModel } from "../../packages/cli/src/cost/lengths/linear-model.js";
import { mostPoints } from "../../packages/nesting/src/batch/disc-measure.js";
import { dualFeasibleFunctions } from "../../packages/nesting/src/batch/dual-feasible.js";
import { enclosingRadius } from "../../packages/nesting/src/batch/enclosing-disc.js";
import { inscribedRadius } from "../../packages/nesting/src/batch/inscribed.js";
import { batch, expectSound, plates, sheet } from "./batch-jobs.js";
import { block, solid } from "./jobs.js";

const solver = solveModel;

describe("lower bounds", () => {
  it("keep sums that are at most 1 at most 1", () => {
    const sizes = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(sizes, (drawn) => {
        let room = 1;
        const packed = drawn.filter((size) => {
          if (size > room) return false;
          room -= size;
          return true;
        });
        for (const f of dualFeasibleFunctions(drawn)) {
          expect(packed.reduce((sum, size) => sum + f(size), 0)).toBeLessThanOrEqual(1 + 1e-9);
        }
      }),
      { numRuns: 500, seed: 7 },
    );
  });

  it("allow every hexagonal and square arrangement of points, and hardly more", () => {
    for (const [width, height] of [
      [10, 10],
      [37.2, 5.1],
      [0, 8],
      [0.5, 0.5],
      [1, 1],
      [20, 0.86],
    ] as const) {
      const most = mostPoints(width, height, 1);
      expect(most).toBeGreaterThanOrEqual(Math.max(square(width, height), hexagonal(width, height)));
    }
    expect(mostPoints(-0.1, 5, 1)).toBe(0);
    expect(mostPoints(0.7, 0.7, 1)).toBe(1);
    expect(mostPoints(0, 8, 1)).toBe(9);
    expect(mostPoints(100, 100, 1)).toBeLessThan(1.03 * hexagonal(100, 100));
  });

  it("find discs inside outlines, never too large", () => {
    expect(inscribedRadius(block(100, 30).outer)).toBeCloseTo(15, 6);
    expect(inscribedRadius(circle({ x: 7, y: -3 }, 21))).toBeCloseTo(21, 6);
    const corner = block(100, 100).outer;
    expect(inscribedRadius(corner)).toBeLessThanOrEqual(50);
  });

  it("know that two plates wider than half a sheet never share it", async () => {
    const job = batch([plates("a", 60, 60, 7)], [sheet("s", 110, 110, 3)]);
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect(plan.sheetCount).toBe(7);
    expect(plan.leastSheets.value).toBe(7);
    expect(plan.optimal).toBe(true);
  });

  it("count what no plate can lie in as material, and what one can lie in as free", async () => {
    const openings = [clockwise(circle({ x: 50, y: 50 }, 30))];
    const frame = { ...plates("frame", 100, 100, 8), region: { ...block(100, 100), openings } };
    // A square of 50 has less area than the opening and is narrower, but its corners are 70.7 apart; of 40, they are 56.6.
    for (const [size, least] of [
      [50, 3],
      [40, 2],
    ] as const) {
      const square = { ...plates("square", size, size, 8), rotations: [0, 45] };
      const job = batch([frame, square], [sheet("s", 200, 200, 3)]);
      const plan = await planBatch(job, { solver });
      expectSound(job, plan);
      expect(plan.leastSheets.value).toBe(least);
      expect(plan.sheetCount).toBe(least);
    }
  });

  it("find the smallest disc around points", () => {
    expect(enclosingRadius([])).toBe(0);
    expect(enclosingRadius([{ x: 3, y: 4 }])).toBe(0);
    expect(enclosingRadius([0, 6, 2, 4].map((x) => ({ x, y: 2 * x })))).toBeCloseTo(3 * Math.sqrt(5), 9);
    const coordinate = fc.double({ min: -100, max: 100, noNaN: true });
    const points = fc.array(fc.record({ x: coordinate, y: coordinate }), { minLength: 2, maxLength: 12 });
    fc.assert(
      fc.property(points, (drawn) => {
        expect(enclosingRadius(drawn)).toBeCloseTo(leastDisc(drawn), 6);
      }),
      { numRuns: 200, seed: 5 },
    );
  });

  it("know it of discs that may lie at any angle, where area says four to a sheet", async () => {
    const part = {
      id: "a",
      region: solid(circle({ x: 0, y: 0 }, 30)),
      demand: 5,
      rotations: "any" as const,
      mirrorable: false,
    };
    const job = batch([part], [sheet("s", 101, 101, 3)]);
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect(plan.leastSheets.value).toBe(5);
    expect(plan.optimal).toBe(true);
  });

  it("are exact for bars: Chvatal's rolls take 453, where the relaxation gives 452.25", async () => {
    // V. Chvatal, Linear Programming, 1983, chapter 13: raws of 100 in; finals of 45, 36, 31 and 14 in. From memory.
    const wanted = [
      [45, 97],
      [36, 610],
      [31, 395],
      [14, 211],
    ] as const;
    const parts = wanted.map(([size, count]) => plates(`w${size}`, size, 10, count));
    const job = batch(parts, [sheet("raw", 100, 10, 1)], { effort: { steps: 600 } });
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect(plan.leastSheets.value).toBe(453);
    expect(plan.sheetCount).toBe(453);
    expect(plan.optimal).toBe(true);
  });

  it("never exceed the optimum that a search through all plans finds", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.integer({ min: 2, max: 10 }), fc.integer({ min: 1, max: 5 })), {
          minLength: 1,
          maxLength: 3,
        }),
        async (drawn) => {
          const bars = drawn.map(([size, demand]) => ({ size, demand }));
          const parts = bars.map(({ size, demand }, index) => plates(`p${index}`, size, 10, demand));
          const job = batch(parts, [sheet("s", 10, 10, 1)], { effort: { steps: 60 } });
          const plan = await planBatch(job, { solver });
          expectSound(job, plan);
          const least = leastBars(
            bars.flatMap(({ size, demand }) => Array.from({ length: demand }, () => size)),
          );
          expect(plan.leastSheets.value).toBeLessThanOrEqual(least);
          expect(plan.sheetCount).toBeGreaterThanOrEqual(least);
          if (plan.optimal) expect(plan.sheetCount).toBe(least);
        },
      ),
      { numRuns: 15, seed: 99 },
    );
  });
});

function square(width: number, height: number): number {
  return (Math.floor(width) + 1) * (Math.floor(height) + 1);
}

function hexagonal(width: number, height: number): number {
  const rows = Math.floor(height / (Math.sqrt(3) / 2)) + 1;
  const long = Math.floor(width) + 1;
  const short = width < 0.5 ? 0 : Math.floor(width - 0.5) + 1;
  return Math.ceil(rows / 2) * long + Math.floor(rows / 2) * short;
}

/** By trying every pair and every three points: the largest of the discs that they need. */
function leastDisc(points: readonly Point[]): number {
  let most = 0;
  for (const a of points) {
    for (const b of points) {
      const side = Math.hypot(a.x - b.x, a.y - b.y);
      most = Math.max(most, side / 2);
      for (const c of points) {
        const [p, q] = [Math.hypot(b.x - c.x, b.y - c.y), Math.hypot(a.x - c.x, a.y - c.y)];
        // Of an obtuse triangle the longest side counts, which is one of the pairs.
        const [short, middle, long] = [side, p, q].toSorted((x, y) => x - y) as [number, number, number];
        if (long ** 2 >= short ** 2 + middle ** 2) continue;
        const doubled = Math.abs((b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y));
        most = Math.max(most, (short * middle * long) / (2 * doubled));
      }
    }
  }
  return most;
}

/** Fewest bars of 10 for the sizes, by trying every bar for every piece. */
function leastBars(sizes: readonly number[]): number {
  const sorted = sizes.toSorted((a, b) => b - a);
  let least = sorted.length;
  const place = (index: number, rooms: readonly number[]): void => {
    if (rooms.length >= least) return;
    const size = sorted[index];
    if (size === undefined) {
      least = rooms.length;
      return;
    }
    const tried = new Set<number>();
    rooms.forEach((room, bar) => {
      if (room < size || tried.has(room)) return;
      tried.add(room);
      place(index + 1, rooms.with(bar, room - size));
    });
    place(index + 1, [...rooms, 10 - size]);
  };
  place(0, []);
  return least;
}
