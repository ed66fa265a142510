import { circle, type Region, rectangle } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { cuttingRate } from "../../packages/cli/src/cost/feed.js";
import { estimate, raised } from "../../packages/cli/src/cost/index.js";
import { moneyText } from "../../packages/cli/src/cost/money.js";
import { frameOf, nestsOf, shopOf, stockOf } from "./cost-fixture.js";

/** Acceleration and travel so high that only the feed counts, for examples that know no dynamics. */
const INSTANT = { acceleration: 1e12, travelFeed: 1e12 };

/** A job that only cuts `count` discs of a given circumference, on one sheet. */
function discs(count: number, circumference: number, times = 1) {
  const region: Region = { outer: circle({ x: 0, y: 0 }, circumference / (2 * Math.PI)), openings: [] };
  const placements = Array.from({ length: count }, (_, i) => ({
    part: "disc",
    x: 100 + 100 * i,
    y: 100,
    rotation: 0,
    mirrored: false,
  }));
  const outline = rectangle(0, 0, 5000, 200);
  return {
    material: "PMMA cast",
    thickness: 3,
    parts: [{ id: "disc", region, demand: count * times, rotations: "any" as const, mirrorable: true }],
    stock: [{ id: "rest", outline, keepOuts: [], available: "unlimited" as const, cost: 0 }],
    result: { sheets: [{ stock: "rest", times, placements }], unplaced: [], cost: 0, yield: 0, steps: 0 },
  };
}

const BARE_FRAME = frameOf({ plates: [], hardware: [], lengths: [] });
const NOTHING = { plates: 0, hardware: 0, lengths: 0 };

function laser(charges: object, currency = "EUR") {
  return shopOf({
    currency,
    cutting: { method: "laser", kerf: 1e-9 },
    machine: INSTANT,
    feeds: [{ material: "PMMA cast", feed: 720, pierceSeconds: 0.4 }],
    charges: {
      perHour: 60,
      setupPerJob: 0,
      setupPerLayout: 0,
      loadPerSheet: 0,
      perPlate: 0,
      fixedPerJob: 0,
      taxPercent: 0,
      freight: 0,
      ...charges,
    },
  });
}

function stockWithRest(currency = "EUR") {
  const outline = [
    [0, 0],
    [5000, 0],
    [5000, 200],
    [0, 200],
  ];
  return stockOf({
    currency,
    sheets: [],
    offcuts: [{ id: "rest", material: "PMMA cast", thickness: 3, outline, count: 500 }],
  });
}

describe("worked examples of cutting quotes", () => {
  it("4.2 m at 12 mm/s, 18 pierces of 0.4 s, 10 min set-up at 60 an hour: 957.2 s, 15.953", async () => {
    // Seen with three decimals in a currency that has them.
    const found = await estimate({
      frame: BARE_FRAME,
      nests: [discs(18, 4200 / 18)],
      shop: laser({ setupPerJob: 10 }, "KWD"),
      stockList: stockWithRest("KWD"),
      kits: 1,
      spares: NOTHING,
    });
    const [sheet] = found.cutting;
    const seconds = (sheet?.minutes?.machine ?? 0) * 60 + 600;
    expect(seconds).toBeCloseTo(957.2, 3);
    expect(sheet?.metres.drawn).toBeCloseTo(4.2, 9);
    expect(sheet?.starts).toBe(18);
    expect(moneyText(found.totals.total, found.exponent)).toBe("15.953");
  });

  it.each([
    [1, 50, "50.00"],
    [4, 50, "12.50"],
    [5, 50, "10.20"],
    [1, 0, "34.20"],
    [10, 0, "7.20"],
    [100, 0, "4.50"],
  ])("fixed 30, 4.20 each, %i of them, minimum %i: %s each", async (count, minimum, each) => {
    const found = await estimate({
      frame: BARE_FRAME,
      nests: [discs(1, 300, count)],
      shop: laser({ perMetre: 0, perPierce: 4.2, fixedPerJob: 30, minimum }),
      stockList: stockWithRest(),
      kits: count,
      spares: NOTHING,
    });
    expect(moneyText(found.perKit.total, 2)).toBe(each);
    const lifted = found.totals.groups.minimum > 0;
    expect(lifted).toBe(30 + 4.2 * count < minimum);
  });

  it("18000 1/min, 2 flutes, 0.1 mm a tooth: 3600 mm/min", () => {
    const shop = shopOf({ feeds: [{ material: "PE-HD", spindle: 18000, flutes: 2, chipLoad: 0.1 }] });
    expect(cuttingRate(shop, "PE-HD", 10)?.feed).toBe(3600);
    expect(cuttingRate(shop, "PVC-U", 5)).toBeUndefined();
  });

  it("100 kits of 4 plates and 5 % spares: 420 plates, 12 sheets of 37, not the 11.35 of the area", async () => {
    expect(raised(400, 5)).toBe(420);
    const nest = discs(37, 200, 11);
    const last = discs(420 - 11 * 37, 200);
    const sheets = [...nest.result.sheets, ...last.result.sheets];
    const found = await estimate({
      frame: BARE_FRAME,
      nests: [{ ...nest, result: { ...nest.result, sheets } }],
      shop: laser({}),
      stockList: stockWithRest(),
      kits: 100,
      spares: { ...NOTHING, plates: 5 },
    });
    expect(found.material[0]?.sheetCount).toBe(12);
    expect(found.cutting.reduce((sum, sheet) => sum + sheet.times * sheet.plates, 0)).toBe(420);
    expect(found.material[0]?.leastSheets).toBeLessThanOrEqual(12);
  });

  it("costs more, not less, when the same plates take more sheets (a public example has the sign wrong)", async () => {
    const stockList = stockOf();
    const [dense] = nestsOf(12, stockList);
    if (dense === undefined) throw new Error("no nest");
    const [layout] = dense.result.sheets;
    const half = { ...layout, stock: "pe-full", times: 4, placements: layout?.placements.slice(0, 6) ?? [] };
    const loose = { ...dense, result: { ...dense.result, sheets: [half] } };
    const input = { frame: BARE_FRAME, shop: shopOf(), stockList, kits: 12, spares: NOTHING };
    const [a, b] = [
      await estimate({ ...input, nests: [dense] }),
      await estimate({ ...input, nests: [loose] }),
    ];
    expect(a.material[0]?.yield).toBeCloseTo(2 * (b.material[0]?.yield ?? 0), 9);
    expect(b.totals.groups.sheet).toBeGreaterThan(a.totals.groups.sheet);
  });
});
