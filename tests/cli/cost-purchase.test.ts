import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  cheapestPurchase,
  type Offer,
  type Purchase,
  tierPrice,
} from "../../packages/cli/src/cost/purchase.js";

const TIERS = [
  { from: 1, each: 10 },
  { from: 10, each: 8 },
  { from: 50, each: 7.5 },
];

/** In hundredths, from the tiers, not from what the purchase says about itself. */
function cost(purchase: Purchase, offers: readonly Offer[]): number {
  return purchase.bought.reduce(
    (sum, line, i) => sum + line.packs * Math.round(100 * tierPrice(offers[i]?.tiers ?? [], line.packs)),
    0,
  );
}

function buy(need: number, offers: readonly Offer[]): Purchase {
  const purchase = cheapestPurchase(need, offers);
  if (purchase === undefined) throw new Error("nothing to buy");
  return purchase;
}

describe("one offer", () => {
  it.each([
    [1, 1, 10],
    [7, 7, 10],
    [8, 8, 10],
    [9, 10, 8],
    [10, 10, 8],
    [46, 46, 8],
    [47, 50, 7.5],
    [48, 50, 7.5],
    [51, 51, 7.5],
  ])("%i needed: %i at %f", (need, packs, each) => {
    expect(buy(need, [{ pack: 1, tiers: TIERS }]).bought).toEqual([{ packs, each }]);
  });

  it("flags where a larger quantity costs less, and only there", () => {
    expect(buy(9, [{ pack: 1, tiers: TIERS }]).dearer).toEqual({ packs: 9, each: 10 });
    expect(buy(8, [{ pack: 1, tiers: TIERS }]).dearer).toBeUndefined();
  });

  it("rounds up to packs, the least order and the first tier", () => {
    expect(buy(101, [{ pack: 100, tiers: [{ from: 1, each: 3 }] }]).bought[0]?.packs).toBe(2);
    expect(buy(1, [{ pack: 1, tiers: [{ from: 1, each: 3 }], minimum: 5 }]).bought[0]?.packs).toBe(5);
    expect(buy(1, [{ pack: 1, tiers: [{ from: 4, each: 3 }] }]).bought[0]?.packs).toBe(4);
  });

  it("buys nothing when nothing is needed, and not more than there is", () => {
    expect(buy(0, [{ pack: 10, tiers: TIERS, minimum: 5 }]).pieces).toBe(0);
    expect(cheapestPurchase(9, [{ pack: 1, tiers: TIERS, available: 8 }])).toBeUndefined();
    expect(buy(9, [{ pack: 1, tiers: TIERS, available: 9 }]).bought[0]).toEqual({ packs: 9, each: 10 });
  });

  it.each([Number.NaN, -1, 0.5, Number.POSITIVE_INFINITY])("refuses a need of %s", (need) => {
    expect(() => cheapestPurchase(need, [{ pack: 1, tiers: TIERS }])).toThrow(RangeError);
  });
});

describe("cost against need", () => {
  const offer = fc
    .record({
      pack: fc.constantFrom(1, 4, 10, 25),
      froms: fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 3 }),
      prices: fc.array(fc.integer({ min: 20, max: 900 }), { minLength: 3, maxLength: 3 }),
    })
    .map(({ pack, froms, prices }): Offer => {
      const falling = prices.sort((a, b) => b - a);
      const tiers = froms.sort((a, b) => a - b).map((from, i) => ({ from, each: (falling[i] ?? 0) / 100 }));
      return { pack, tiers };
    });
  const offers = fc.array(offer, { minLength: 1, maxLength: 3 });

  it("never falls when the need rises: it is the least over all quantities that cover the need", () => {
    // The bare price n x tier(n) does fall at a tier (9 x 10 = 90 > 10 x 8 = 80); the cheapest cover does not.
    fc.assert(
      fc.property(offers, fc.integer({ min: 1, max: 60 }), (list, need) => {
        expect(cost(buy(need + 1, list), list)).toBeGreaterThanOrEqual(cost(buy(need, list), list));
      }),
      { seed: 5, numRuns: 300 },
    );
    expect(9 * tierPrice(TIERS, 9)).toBeGreaterThan(10 * tierPrice(TIERS, 10));
  });

  it("is the least of all combinations tried by force", () => {
    fc.assert(
      fc.property(offers, fc.integer({ min: 1, max: 30 }), (list, need) => {
        expect(cost(buy(need, list), list)).toBe(leastByForce(need, list));
        expect(buy(need, list).pieces).toBeGreaterThanOrEqual(need);
      }),
      { seed: 9, numRuns: 200 },
    );
  });
});

function leastByForce(need: number, offers: readonly Offer[]): number {
  let best = Number.POSITIVE_INFINITY;
  const choose = (at: number, pieces: number, soFar: number): void => {
    const offer = offers[at];
    if (offer === undefined) {
      if (pieces >= need) best = Math.min(best, soFar);
      return;
    }
    const least = offer.tiers[0]?.from ?? 1;
    const last = offer.tiers.at(-1)?.from ?? 1;
    for (let packs = 0; packs <= Math.max(last, Math.ceil(need / offer.pack)); packs++) {
      if (packs > 0 && packs < least) continue;
      const each = Math.round(100 * tierPrice(offer.tiers, packs));
      choose(at + 1, pieces + packs * offer.pack, soFar + packs * each);
    }
  };
  choose(0, 0, 0);
  return best;
}
