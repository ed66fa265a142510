import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { withScrap, withSpares } from "../../packages/cli/src/cost/index.js";
import { demandOf, quantityOf } from "../../packages/cli/src/job/demand.js";
import { estimateOf, stockOf } from "./cost-fixture.js";

describe("spares and scrap", () => {
  it.each([
    [400, 5, 0, 420],
    [4, 2, 0, 5],
    [4, 2, 1, 5],
    [4, 2, 3, 7],
    [0, 0, 2, 2],
  ])("%i pieces, %f %% spares, %i at least: %i", (count, percent, least, total) => {
    expect(withSpares(count, percent, least)).toBe(total);
  });

  it.each([
    [95, 5, 100],
    [100, 0, 100],
    [1, 50, 2],
    // 100 / 0.9 = 111.1: adding a tenth, 110, would leave 99.
    [100, 10, 112],
  ])("%i good ones at %f %% scrap: %i", (count, percent, made) => {
    expect(withScrap(count, percent)).toBe(made);
  });

  it("leaves enough good ones and not one more than needed", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), fc.integer({ min: 0, max: 500 }), (count, tenths) => {
        const made = withScrap(count, tenths / 10);
        expect(made * (1000 - tenths)).toBeGreaterThanOrEqual(count * 1000);
        expect((made - 1) * (1000 - tenths)).toBeLessThan(count * 1000);
      }),
      { seed: 3, numRuns: 300 },
    );
    expect(() => withScrap(1, 100)).toThrow(RangeError);
    expect(() => withScrap(1, Number.NaN)).toThrow(RangeError);
  });

  it("come from the stock list's rules for selling, the percent from the command line first", () => {
    const selling = { spares: { plates: 5, least: { plates: 2 } }, scrapPercent: 4 };
    const rules = stockOf({ selling }).selling;
    // 2 x 100, 5 % spares: 210; 210 / 0.96 = 218.75.
    expect(demandOf({ count: 2 }, quantityOf(100, rules, undefined))).toBe(219);
    // 2 x 1, 2 at least: 4; 4 / 0.96 = 4.17.
    expect(demandOf({ count: 2 }, quantityOf(1, rules, 0))).toBe(5);
    expect(demandOf({ count: 3 }, { kits: 4, sparesPercent: 0 })).toBe(12);
  });

  it("raise hardware and lengths by a count at least", async () => {
    const spares = { least: { hardware: 3, lengths: 2 } };
    const found = await estimateOf(1, { stockList: stockOf({ selling: { spares } }) });
    expect(found.hardware.map((use) => [use.total, use.spares])).toEqual([
      [11, 3],
      [15, 3],
    ]);
    expect(found.lengths[0]?.pieces.map((piece) => piece.spares)).toEqual([2, 2]);
    const of = (what: string) => found.assumptions.find((entry) => entry.what === what);
    expect(of("selling.spares.least.hardware")).toMatchObject({ defaulted: false });
    expect(of("selling.scrapPercent")).toMatchObject({ value: "0 % of the cut plates", defaulted: true });
  });
});
