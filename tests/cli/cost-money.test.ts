import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  amount,
  currencyExponent,
  major,
  moneyText,
  priceAtMargin,
  raised,
  shared,
} from "../../packages/cli/src/cost/money.js";

describe("minor units", () => {
  it("agree with the runtime's currency data", () => {
    // V8 takes its digits from CLDR. CLDR shows fewer decimals than ISO 4217 where coins fell out of use; those are listed.
    const shownWithFewer = new Set(
      "AFN ALL COP HUF IDR IQD IRR KPW LAK LBP MGA MMK PKR SLL SOS SYP YER".split(" "),
    );
    const codes = Intl.supportedValuesOf("currency");
    expect(codes.length).toBeGreaterThan(100);
    const compared = codes.filter((code) => /^[A-Z]{3}$/.test(code) && !shownWithFewer.has(code));
    const obsolete = new Set("ADP ESP ITL BYR LUF MGF TPE TRL".split(" "));
    for (const code of compared) {
      if (obsolete.has(code)) continue;
      const digits = new Intl.NumberFormat("en", { style: "currency", currency: code }).resolvedOptions();
      expect([code, currencyExponent(code)]).toEqual([code, digits.maximumFractionDigits]);
    }
  });

  it.each([
    ["EUR", 2],
    ["JPY", 0],
    ["KWD", 3],
    ["CLF", 4],
  ])("%s has %i", (currency, exponent) => expect(currencyExponent(currency)).toBe(exponent));
});

describe("amount", () => {
  it.each([
    [2, 1.005, 1, 101],
    [2, 3, 0.335, 101],
    [2, 1, -0.005, -1],
    [2, 0.1, 0.2, 2],
    [0, 5, 0.5, 3],
    [3, 0.26589, 60, 15953],
    [2, 1e-7, 1e7, 100],
  ])("at 10^-%i: %f x %f = %i", (exponent, quantity, rate, expected) => {
    expect(amount(exponent, quantity, rate)).toBe(expected);
  });

  it("is the rounded product of the decimals as written", () => {
    const decimal = fc.tuple(fc.integer({ min: 0, max: 999_999 }), fc.integer({ min: 0, max: 4 }));
    fc.assert(
      fc.property(decimal, decimal, ([a, i], [b, j]) => {
        const exact = 2n * BigInt(a) * BigInt(b) * 100n;
        const unit = 10n ** BigInt(i + j);
        const expected = Number((exact + unit) / (2n * unit));
        expect(amount(2, a / 10 ** i, b / 10 ** j)).toBe(expected);
      }),
      { seed: 3, numRuns: 500 },
    );
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])("refuses %s", (bad) => {
    expect(() => amount(2, bad, 1)).toThrow(RangeError);
  });
  it("refuses what no integer holds", () => expect(() => amount(2, 1e15, 1e15)).toThrow(RangeError));
});

describe("text", () => {
  it.each([
    [123450, 2, "1234.50"],
    [-5, 2, "-0.05"],
    [7, 0, "7"],
    [1, 3, "0.001"],
    [0, 2, "0.00"],
  ])("%i at 10^-%i is %s", (money, exponent, text) => {
    expect(moneyText(money, exponent)).toBe(text);
    expect(major(money, exponent)).toBe(Number(text));
  });
});

describe("counts and shares", () => {
  it.each([
    [400, 5, 420],
    [100, 10, 110],
    [4, 2, 5],
    [4, 0, 4],
    [0, 5, 0],
    [1000, 2.5, 1025],
    [1, 0.1, 2],
  ])("%i and %f %% spares are %i", (count, percent, expected) => {
    expect(raised(count, percent)).toBe(expected);
  });

  it("rounds a share half away from zero", () => {
    expect(shared(5, 2)).toBe(3);
    expect(shared(-5, 2)).toBe(-3);
    expect(shared(1000, 3)).toBe(333);
  });

  it("takes a margin of the price, not a mark-up on the cost", () => {
    expect(priceAtMargin(6000, 1, 25)).toBe(8000);
    expect(priceAtMargin(6000, 1, 25)).not.toBe(7500);
    expect(priceAtMargin(6000, 1, 0)).toBe(6000);
    expect(() => priceAtMargin(6000, 1, 100)).toThrow(RangeError);
  });
});
