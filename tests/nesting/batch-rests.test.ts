import { type Box, polygon, rectangle } from "@keelcut/geometry";
import { largestRest, NestJobError, planBatch } from "@keelcut/nesting";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { solveModel } from "../../packages/cli/src/cost/lengths/linear-model.js";
import { batch, expectSound, plates, sheet } from "./batch-jobs.js";
import { randomJob } from "./random-jobs.js";

const solver = solveModel;

/** The largest free rectangle's area by trying every rectangle between any two edges in x and in y. */
function largestAreaByTrial(length: number, width: number, taken: readonly Box[], least: number): number {
  const within = (most: number, values: readonly number[]): number[] =>
    [...new Set([0, most, ...values.map((value) => Math.min(most, Math.max(0, value)))])].sort(
      (a, b) => a - b,
    );
  const xs = within(
    length,
    taken.flatMap((box) => [box.minX, box.maxX]),
  );
  const ys = within(
    width,
    taken.flatMap((box) => [box.minY, box.maxY]),
  );
  let most = 0;
  for (const minX of xs) {
    for (const maxX of xs.filter((x) => x - minX >= least)) {
      for (const minY of ys) {
        for (const maxY of ys.filter((y) => y - minY >= least)) {
          const free = taken.every(
            (box) => box.minX >= maxX || box.maxX <= minX || box.minY >= maxY || box.maxY <= minY,
          );
          if (free) most = Math.max(most, (maxX - minX) * (maxY - minY));
        }
      }
    }
  }
  return most;
}

describe("the rest of a sheet", () => {
  it("is the largest rectangle that trying all of them finds, clear of plates and keep-outs", () => {
    const box = fc
      .tuple(
        fc.integer({ min: 0, max: 90 }),
        fc.integer({ min: 0, max: 50 }),
        fc.integer({ min: 1, max: 40 }),
      )
      .map(([x, y, side]): Box => ({ minX: x, minY: y, maxX: x + side, maxY: y + side / 2 }));
    fc.assert(
      fc.property(fc.array(box, { maxLength: 7 }), fc.integer({ min: 0, max: 4 }), (plates, clearance) => {
        const outline = rectangle(7, -3, 100, 60);
        const stock = { outline, keepOuts: [rectangle(7, -3, 5, 60)] };
        const moved = plates.map((plate) => ({
          minX: plate.minX + 7,
          minY: plate.minY - 3,
          maxX: plate.maxX + 7,
          maxY: plate.maxY - 3,
        }));
        const rest = largestRest(stock, moved, clearance, { length: 10, width: 10 });
        const grown = plates.map((plate) => ({
          minX: plate.minX - clearance,
          minY: plate.minY - clearance,
          maxX: plate.maxX + clearance,
          maxY: plate.maxY + clearance,
        }));
        const taken = [...grown, { minX: 0, minY: 0, maxX: 5, maxY: 60 }];
        const area = rest === undefined ? 0 : (rest.maxX - rest.minX) * (rest.maxY - rest.minY);
        expect(area).toBeCloseTo(largestAreaByTrial(100, 60, taken, 10), 9);
        if (rest === undefined) return;
        for (const { minX, minY, maxX, maxY } of taken) {
          const clear =
            minX + 7 >= rest.maxX || maxX + 7 <= rest.minX || minY - 3 >= rest.maxY || maxY - 3 <= rest.minY;
          expect(clear).toBe(true);
        }
      }),
    );
  });

  it("is none on stock that is no rectangle", () => {
    const corners = [
      { x: 0, y: 0 },
      { x: 100, y: 0 },
      { x: 0, y: 100 },
    ];
    const stock = { outline: polygon(corners), keepOuts: [] };
    expect(largestRest(stock, [], 0, { length: 10, width: 10 })).toBe(undefined);
  });
});

describe("plans where rests have a worth", () => {
  it("tells the worth of a rest beside the cost", async () => {
    const job = batch([plates("a", 60, 100, 1)], [sheet("s", 100, 100, 10)], {
      rests: { length: 30, width: 30, percent: 50 },
    });
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    // 40 of 100 mm of a sheet for 10, at half its price.
    expect(plan.restWorth).toBeCloseTo(2, 9);
    expect(plan.cost).toBe(10);
    expect(plan.optimal).toBe(true);
  });

  it("leaves out a rest that is too small to keep", async () => {
    const job = batch([plates("a", 60, 100, 1)], [sheet("s", 100, 100, 10)], {
      rests: { length: 50, width: 50, percent: 50 },
    });
    expect((await planBatch(job, { solver })).restWorth).toBe(0);
  });

  it("buys the sheet whose rest makes it the cheaper one, and only then", async () => {
    const stock = [sheet("half", 100, 100, 11), sheet("whole", 200, 100, 20)];
    const used = async (percent: number): Promise<string[]> => {
      const job = batch([plates("a", 100, 100, 1)], stock, { rests: { length: 50, width: 50, percent } });
      const plan = await planBatch(job, { solver });
      expectSound(job, plan);
      return plan.sheets.map((each) => each.stock);
    };
    // The whole sheet costs 20 less half of it at the percentage: 15 at 50, 10 at 100; the half sheet costs 11.
    expect(await used(50)).toEqual(["half"]);
    expect(await used(100)).toEqual(["whole"]);
  });

  it("weighs rests also where no one stock holds every plate", async () => {
    const stock = [sheet("half", 100, 100, 11), sheet("whole", 200, 100, 20), sheet("long", 300, 50, 10)];
    const job = batch([plates("a", 100, 100, 1), plates("b", 300, 50, 1)], stock, {
      rests: { length: 50, width: 50, percent: 100 },
    });
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect(plan.unplaced).toEqual([]);
    expect(plan.sheets.map((each) => each.stock).sort()).toEqual(["long", "whole"]);
    expect(plan.cost - plan.restWorth).toBeCloseTo(20, 9);
  });

  it("counts whole sheets bought beyond need, which lower tiers make worth while", async () => {
    const tiers = [
      { from: 1, each: 10 },
      { from: 5, each: 7 },
    ];
    const job = batch([plates("a", 100, 100, 4)], [{ ...sheet("s", 100, 100, 10), tiers }], {
      rests: { length: 50, width: 50, percent: 20 },
    });
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect(plan.use).toEqual([{ stock: "s", used: 4, bought: 5, each: 7 }]);
    expect(plan.restWorth).toBeCloseTo(1.4, 9);
  });

  it("gives rests of pieces at hand no worth", async () => {
    const own = { ...sheet("own", 100, 100, 0), available: 1 };
    const job = batch([plates("a", 60, 100, 1)], [sheet("s", 100, 100, 10), own], {
      rests: { length: 30, width: 30, percent: 50 },
    });
    const plan = await planBatch(job, { solver });
    expectSound(job, plan);
    expect([plan.cost, plan.restWorth]).toEqual([0, 0]);
  });

  it("makes sound plans whatever rests are worth, and none is worth more than its stock", async () => {
    const rests = fc.record({
      length: fc.integer({ min: 1, max: 120 }),
      width: fc.integer({ min: 1, max: 120 }),
      percent: fc.integer({ min: 0, max: 100 }),
    });
    await fc.assert(
      fc.asyncProperty(fc.nat().map(randomJob), rests, async (random, worth) => {
        const job = { ...random, rests: worth };
        const plan = await planBatch(job, { solver });
        expectSound(job, plan);
        const paid = plan.use.reduce((sum, { bought, each }) => sum + bought * each, 0);
        expect(plan.restWorth).toBeLessThanOrEqual((paid * worth.percent) / 100 + 1e-9);
      }),
      { numRuns: 15 },
    );
  });

  it("refuses a worth that is none", async () => {
    const job = batch([plates("a", 60, 100, 1)], [sheet("s", 100, 100, 10)], {
      rests: { length: 30, width: 0, percent: 120 },
    });
    await expect(planBatch(job, { solver })).rejects.toThrow(NestJobError);
    await expect(planBatch(job, { solver })).rejects.toThrow(/rests\.percent.*rests\.width/s);
  });
});
