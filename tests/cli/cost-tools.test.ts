import { circle, type Region, rectangle, reversed } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { nestStock } from "../../packages/cli/src/cost/index.js";
import { estimateOf, shopOf, stockOf } from "./cost-fixture.js";

/** Acceleration and travel so high that only feeds and tool changes count. */
const INSTANT = { acceleration: 1e12, travelFeed: 1e12 };

/** A panel with two holes of 6.6 mm and one of 20 mm. */
const PLATE: Region = {
  outer: rectangle(0, 0, 200, 100),
  openings: [30, 170]
    .map((x) => reversed(circle({ x, y: 50 }, 3.3)))
    .concat([reversed(circle({ x: 100, y: 50 }, 10))]),
};

async function cutting(machine: object, method = "router") {
  const placements = [{ part: "panel", x: 100, y: 100, rotation: 0, mirrored: false }];
  const nest = {
    material: "PE-HD",
    thickness: 10,
    parts: [{ id: "panel", region: PLATE, demand: 1, rotations: "any" as const, mirrorable: true }],
    stock: nestStock(stockOf(), "PE-HD", 10),
    result: {
      sheets: [{ stock: "pe-full", times: 1, placements }],
      unplaced: [],
      cost: 0,
      yield: 0,
      steps: 0,
    },
  };
  const shop = shopOf({ machine: { ...INSTANT, ...machine }, cutting: { method } });
  const found = await estimateOf(1, { nests: [nest], shop });
  return { found, sheet: found.cutting[0] };
}

describe("drills beside the cutter", () => {
  it("takes no change of tool, and says so, when the shop has none", async () => {
    const { found, sheet } = await cutting({});
    expect(sheet?.minutes?.change).toBeUndefined();
    expect(found.assumptions.find(({ what }) => what === "tools")?.value).toBe("one cutter, no tool change");
  });

  it("drills holes of its size at its feed, and changes the tool there and back", async () => {
    const plain = await cutting({});
    const { found, sheet } = await cutting({
      drills: [{ diameter: 6.6, plungeFeed: 300 }],
      toolChangeSeconds: 45,
    });
    const minutes = sheet?.minutes;
    expect((minutes?.change ?? 0) * 60).toBeCloseTo(2 * 45, 9);
    // 10 mm at 600 mm/min for outline and large hole, at 300 for the two drilled.
    expect((minutes?.enter ?? 0) * 60).toBeCloseTo(2 * 1 + 2 * 2, 3);
    // Three passes of each small hole, on a circle of 6.6 - 3.175 mm, are gone.
    const gone = (2 * 3 * Math.PI * (6.6 - 3.175)) / 1000;
    expect(sheet?.metres.cut).toBeCloseTo((plain.sheet?.metres.cut ?? 0) - gone, 9);
    expect(sheet?.metres.drawn).toBe(plain.sheet?.metres.drawn);
    expect(sheet?.starts).toBe(4);
    const parts =
      (minutes?.cut ?? 0) + (minutes?.enter ?? 0) + (minutes?.travel ?? 0) + (minutes?.change ?? 0);
    expect(minutes?.machine).toBeCloseTo(parts, 12);
    expect(found.assumptions.find(({ what }) => what === "tools")?.value).toContain("drills of 6.6 mm");
  });

  it("leaves holes of another size, and other methods, to the cutter", async () => {
    const drills = [{ diameter: 6.5 }];
    expect((await cutting({ drills })).sheet?.minutes?.change).toBeUndefined();
    const laser = await cutting({ drills: [{ diameter: 6.6 }] }, "laser");
    expect(laser.sheet?.minutes?.change).toBeUndefined();
  });
});
