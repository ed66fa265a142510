import { rectangle } from "@keelcut/geometry";
import { type BatchJob, type BatchPlan, planBatch, planBatches } from "@keelcut/nesting";
import { describe, expect, it } from "vitest";
import { solveModel } from "../../packages/cli/src/cost/lengths/linear-model.js";

/** Two kinds of plates, two of one and three of the other in a kit, on one sheet with a price list. */
function jobOf(kits: number): BatchJob {
  const part = (id: string, length: number, width: number, perKit: number) => ({
    id,
    region: { outer: rectangle(0, 0, length, width), openings: [] },
    demand: kits * perKit,
    perKit,
    rotations: "any" as const,
    mirrorable: true,
  });
  return {
    parts: [part("long", 180, 60, 2), part("short", 90, 70, 3)],
    stock: [
      {
        id: "sheet",
        outline: rectangle(0, 0, 500, 300),
        keepOuts: [],
        available: "unlimited",
        cost: 20,
        tiers: [
          { from: 1, each: 20 },
          { from: 6, each: 16 },
        ],
      },
    ],
    clearance: 4,
    edgeMargin: 5,
    chordError: 0.05,
    seed: 3,
    effort: { steps: 400 },
  };
}

/** A plan without the count of steps, which includes those of the plans before it. */
function withoutSteps({ steps: _, ...plan }: BatchPlan): Omit<BatchPlan, "steps"> {
  return plan;
}

describe("several demands from one search", () => {
  it("plans each as it would be planned alone, whatever stands beside it", async () => {
    const counts = [3, 12, 40];
    const demands = counts.map((kits) => jobOf(kits).parts.map((part) => part.demand));
    const together = await planBatches(jobOf(3), demands, { solver: solveModel });
    expect(together).toHaveLength(3);
    for (const [index, kits] of counts.entries()) {
      const alone = await planBatch(jobOf(kits), { solver: solveModel });
      expect(withoutSteps(together[index] as BatchPlan)).toEqual(withoutSteps(alone));
    }
    const costs = together.map((plan) => plan.cost);
    expect(costs).toEqual(costs.toSorted((a, b) => a - b));
  });

  it("refuses a demand that does not fit the parts", async () => {
    await expect(planBatches(jobOf(1), [[2]])).rejects.toThrow(RangeError);
    await expect(planBatches(jobOf(1), [[2, Number.NaN]])).rejects.toThrow();
  });
});
