import { chipLoad, featureLimits, limitFor, routerFeed, usualKerf } from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

describe("Feed = spindle x flutes x chip load", () => {
  test("18000 1/min, 2 flutes, 0.1 mm: 3600 mm/min (published example)", () => {
    expect(routerFeed(18000, 2, 0.1)).toBeCloseTo(3600, 9);
  });

  test("500 in/min at 15000 1/min and 2 flutes is a chip of 0.0167 in (published example, which prints .017)", () => {
    expect(routerFeed(15000, 2, 500 / 30000)).toBeCloseTo(500, 9);
    expect(500 / 30000).toBeCloseTo(0.0167, 4);
  });

  test.each([
    [0, 2, 0.1],
    [18000, -1, 0.1],
    [18000, 2, Number.NaN],
    [Number.POSITIVE_INFINITY, 2, 0.1],
  ])("refuses %d, %d, %d", (spindle, flutes, chip) => {
    expect(() => routerFeed(spindle, flutes, chip)).toThrow(RangeError);
  });
});

describe("Chip loads, inches of the trade's chart converted", () => {
  test.each([
    ["soft plastic", 3.175, 0.003, 0.006],
    ["hard plastic", 6.35, 0.006, 0.009],
    ["acrylic", 9.53, 0.01, 0.012],
    ["aluminium", 12.7, 0.008, 0.01],
    ["soft plywood", 9.53, 0.017, 0.02],
  ])("%s, %d mm: %d to %d in", (kind, diameter, least, largest) => {
    const found = chipLoad(kind, diameter);
    expect(Math.abs(found[0] - least * 25.4)).toBeLessThan(0.006);
    expect(Math.abs(found[1] - largest * 25.4)).toBeLessThan(0.006);
  });

  test("half-way between two diameters lies half-way between their chips", () => {
    const [least, largest] = chipLoad("acrylic", (3.175 + 6.35) / 2);
    expect(least).toBeCloseTo(0.14, 9);
    expect(largest).toBeCloseTo(0.19, 9);
  });

  test.each([3.1, 12.8, Number.NaN])("refuses a cutter of %d mm", (diameter) => {
    expect(() => chipLoad("acrylic", diameter)).toThrow(RangeError);
  });
});

describe("Limits of features", () => {
  test("a router needs its cutter and 0.3 mm", () => {
    expect(limitFor(featureLimits.router.opening, 10, 3.175)).toBeCloseTo(3.475, 9);
  });

  test("the smallest laser hole is half a thickness", () => {
    expect(limitFor(featureLimits.laser.opening, 6, 0.2)).toBe(3);
  });

  test("a laser web is a thickness, and never under 1 mm", () => {
    expect(limitFor(featureLimits.laser.web, 5, 0.2)).toBe(5);
    expect(limitFor(featureLimits.laser.web, 0.5, 0.2)).toBe(1);
  });

  test("usual kerfs keep their order", () => {
    expect(usualKerf.laser).toBeLessThan(usualKerf.waterjet);
    expect(usualKerf.waterjet).toBeLessThan(usualKerf.router);
  });
});
