import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  cheapestPurchase,
  type Offer,
  type Purchase,
  partsOf,
} from "../../packages/cli/src/cost/purchase.js";
import { stockListSchema } from "../../packages/cli/src/input/stock-list.js";
import { estimateOf, stockOf } from "./cost-fixture.js";

/** What `packs` cost, in hundredths, piece by piece: each at the price of its own place in the order. */
function pieceByPiece({ tiers, incremental }: Offer, packs: number): number {
  let cost = 0;
  for (let place = 1; place <= packs; place++) {
    const counted = incremental ? place : packs;
    const tier = tiers.findLast(({ from }) => from <= counted) ?? tiers[0];
    cost += Math.round(100 * (tier?.each ?? 0));
  }
  return cost;
}

function told(purchase: Purchase | undefined): number {
  const parts = (purchase?.bought ?? []).flatMap(partsOf);
  return parts.reduce((sum, { packs, each }) => sum + packs * Math.round(100 * each), 0);
}

const STEPS = [
  { from: 1, each: 10 },
  { from: 10, each: 8 },
  { from: 50, each: 7.5 },
];

describe("increments", () => {
  it.each([
    [1, 10],
    [9, 90],
    [10, 98],
    [49, 90 + 40 * 8],
    [60, 90 + 40 * 8 + 11 * 7.5],
  ])("%i pieces cost %f: 9 at 10, the next 40 at 8, the rest at 7.50", (need, cost) => {
    const bought = cheapestPurchase(need, [{ pack: 1, tiers: STEPS, incremental: true }]);
    expect(bought?.pieces).toBe(need);
    expect(bought?.dearer).toBeUndefined();
    expect(told(bought)).toBe(Math.round(100 * cost));
  });

  it("is never below the price for the whole quantity, and the same at one tier", () => {
    for (const need of [1, 9, 10, 30, 50, 80]) {
      const whole = told(cheapestPurchase(need, [{ pack: 1, tiers: STEPS }]));
      const step = told(cheapestPurchase(need, [{ pack: 1, tiers: STEPS, incremental: true }]));
      expect(step).toBeGreaterThanOrEqual(whole);
    }
  });

  const offer = fc
    .record({
      pack: fc.constantFrom(1, 4, 10),
      froms: fc.uniqueArray(fc.integer({ min: 1, max: 8 }), { minLength: 1, maxLength: 3 }),
      prices: fc.array(fc.integer({ min: 20, max: 900 }), { minLength: 3, maxLength: 3 }),
      incremental: fc.boolean(),
    })
    .map(({ pack, froms, prices, incremental }): Offer => {
      const falling = prices.toSorted((a, b) => b - a);
      const rising = froms.toSorted((a, b) => a - b);
      return { pack, incremental, tiers: rising.map((from, i) => ({ from, each: (falling[i] ?? 0) / 100 })) };
    });

  it("is the least of all combinations of packs, tiers and increments tried by force", () => {
    fc.assert(
      fc.property(
        fc.array(offer, { minLength: 1, maxLength: 2 }),
        fc.integer({ min: 1, max: 25 }),
        (offers, need) => {
          const found = cheapestPurchase(need, offers);
          expect(found?.pieces).toBeGreaterThanOrEqual(need);
          expect(told(found)).toBe(leastByForce(need, offers));
          for (const [index, line] of (found?.bought ?? []).entries()) {
            const own = offers[index];
            if (own === undefined) throw new Error("no offer");
            expect(told({ bought: [line], pieces: 0 })).toBe(pieceByPiece(own, line.packs));
          }
        },
      ),
      { seed: 31, numRuns: 150 },
    );
  });

  it("stands in the estimate as one line for each price, and the lines add up", async () => {
    const sheets = stockOf().sheets.map((sheet) =>
      sheet.id === "pe-full"
        ? {
            ...sheet,
            atHand: 0,
            price: {
              increments: [
                { from: 1, each: 40 },
                { from: 3, each: 30.5 },
              ],
            },
          }
        : sheet,
    );
    const found = await estimateOf(30, { stockList: stockOf({ sheets }) });
    const lines = found.lines.filter((line) => line.item.startsWith("sheet pe-full"));
    expect(lines.map(({ quantity, rate, amount }) => [quantity, rate, amount])).toEqual([
      [2, 40, 8000],
      [3, 30.5, 9150],
    ]);
    expect(found.totals.total).toBe(found.lines.reduce((sum, line) => sum + (line.amount ?? 0), 0));
  });

  it("is refused for lengths, which are packed at prices for the whole quantity", () => {
    const lengths = [{ item: "rod", length: 1000, price: { increments: [{ from: 1, each: 2 }] } }];
    expect(stockListSchema.safeParse({ keelcut: 1, currency: "EUR", lengths }).success).toBe(false);
  });
});

function leastByForce(need: number, offers: readonly Offer[]): number {
  let best = Number.POSITIVE_INFINITY;
  const choose = (at: number, pieces: number, soFar: number): void => {
    const own = offers[at];
    if (own === undefined) {
      if (pieces >= need) best = Math.min(best, soFar);
      return;
    }
    const least = own.tiers[0]?.from ?? 1;
    const last = own.tiers.at(-1)?.from ?? 1;
    for (let packs = 0; packs <= Math.max(last, Math.ceil(need / own.pack)); packs++) {
      if (packs > 0 && packs < least) continue;
      choose(at + 1, pieces + packs * own.pack, soFar + pieceByPiece(own, packs));
    }
  };
  choose(0, 0, 0);
  return best;
}
