import { type BatchJob, planBatch, type Sheet, servingSheets } from "@keelcut/nesting";
import { describe, expect, it } from "vitest";
import { solveModel } from "../../packages/cli/src/cost/lengths/linear-model.js";
import { batch, expectSound, plates, sheet } from "./batch-jobs.js";

const solver = solveModel;

/** Three of one kind and two of another in a kit, on a small sheet. */
function jobOf(kits: number, over: Partial<BatchJob> = {}): BatchJob {
  const parts = [
    { ...plates("a", 60, 40, 3 * kits), perKit: 3 },
    { ...plates("b", 45, 30, 2 * kits), perKit: 2 },
  ];
  return batch(parts, [sheet("s", 150, 100, 10)], { effort: { steps: 600 }, ...over });
}

function placed(part: string, x: number, y: number): Sheet["placements"][number] {
  return { part, x, y, rotation: 0, mirrored: false };
}

const known: Sheet = {
  stock: "s",
  times: 4,
  placements: [
    placed("a", 0, 0),
    placed("a", 60, 0),
    placed("a", 0, 40),
    placed("b", 60, 40),
    placed("b", 105, 40),
  ],
};

describe("going on from an earlier plan", () => {
  it("keeps sheets that serve, and says of the others why they do not", () => {
    const job = jobOf(4, { clearance: 0 });
    const overlapping = { ...known, placements: [placed("a", 0, 0), placed("a", 30, 0)] };
    const stranger = { ...known, placements: [placed("c", 0, 0)] };
    const outside = { ...known, placements: [placed("a", 100, 0)] };
    const given = [
      known,
      overlapping,
      stranger,
      { ...known, stock: "t" },
      outside,
      { ...known, placements: [] },
    ];
    const { sheets, dropped } = servingSheets(job, given);
    expect(sheets).toEqual([known]);
    expect(dropped.map(({ index }) => index)).toEqual([1, 2, 3, 4, 5]);
    const messages = dropped.map(({ message }) => message);
    expect(messages[0]).toContain("a and a");
    expect(messages[1]).toBe("there is no plate c any more");
    expect(messages[2]).toBe("there is no stock t any more");
    expect(messages[3]).toContain("a");
    expect(messages[4]).toBe("nothing lies on it");
    // The same sheet under a larger clearance.
    expect(servingSheets(jobOf(4, { clearance: 1 }), [known]).sheets).toEqual([]);
    const larger = job.parts.map((part) => (part.id === "b" ? plates("b", 46, 30, 8) : part));
    expect(servingSheets({ ...job, parts: larger }, [known]).sheets).toEqual([]);
  });

  it("is never dearer than the earlier plan, with hardly any effort of its own", async () => {
    const long = jobOf(23);
    const first = await planBatch(long, { solver });
    const short = { ...long, effort: { steps: 1 }, known: first.sheets };
    for (const control of [{ solver }, {}]) {
      const again = await planBatch(short, control);
      expectSound(short, again);
      expect(again.cost).toBeLessThanOrEqual(first.cost + 1e-9);
    }
  });

  it("uses earlier layouts for another demand, and drops what no longer serves", async () => {
    const job = { ...jobOf(9), effort: { steps: 1 } };
    const plan = await planBatch({ ...job, known: [{ ...known, times: 1 }] }, { solver });
    expectSound(job, plan);
    const plain = await planBatch(job, { solver });
    expect(plan.cost).toBeLessThanOrEqual(plain.cost);
    const broken = { ...known, placements: [placed("a", 0, 0), placed("a", 1, 0)] };
    const { steps: _, ...without } = await planBatch({ ...job, known: [broken] }, { solver });
    expect(plain).toMatchObject(without);
  });
});
