import { foam, polyethyleneFoamVolume, usualWater, waterDensity } from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

describe("EOS-80, check values of UNESCO Technical Paper 44, page 19 (IPTS-68, surface)", () => {
  test.each([
    [0, 5, 999.96675],
    [0, 25, 997.04796],
    [35, 5, 1027.67547],
    [35, 25, 1023.34306],
  ])("S %d, %d C: %d kg/m3", (salinity, temperature, density) => {
    expect(Math.abs(waterDensity(temperature, salinity, "IPTS-68") - density)).toBeLessThanOrEqual(5e-6);
  });
});

describe("EOS-80 with thermometers of today (ITS-90)", () => {
  test.each([
    [4, 999.975, 1027.7862],
    [10, 999.7019, 1026.952],
    [20, 998.2053, 1024.7617],
  ])("%d C: %d fresh, %d at salinity 35", (temperature, fresh, sea) => {
    expect(waterDensity(temperature, 0)).toBeCloseTo(fresh, 4);
    expect(waterDensity(temperature, 35)).toBeCloseTo(sea, 4);
  });

  // IAPWS-95, from memory.
  test.each([
    [4, 999.975],
    [10, 999.703],
    [20, 998.207],
  ])("fresh water at %d C agrees with IAPWS-95 within 0.002", (temperature, density) => {
    expect(Math.abs(waterDensity(temperature, 0) - density)).toBeLessThan(0.002);
  });

  test("S 35 at 20 C is 1024.763, not the 1024.7639 of a public worked example", () => {
    expect(waterDensity(20, 35, "IPTS-68")).toBeCloseTo(1024.763, 4);
  });

  test("fresh water is densest near 4 C", () => {
    const at = (t: number) => waterDensity(t, 0);
    expect(at(4)).toBeGreaterThan(at(3));
    expect(at(4)).toBeGreaterThan(at(5));
  });

  test("the usual values are what 20 C gives", () => {
    expect(Math.abs(usualWater.fresh - waterDensity(20, 0))).toBeLessThan(0.05);
    expect(Math.abs(usualWater.sea - waterDensity(20, 35))).toBeLessThan(0.5);
  });

  test.each([
    [-2.1, 0],
    [40.1, 0],
    [10, -1],
    [10, 43],
    [Number.NaN, 0],
    [10, Number.NaN],
  ])("refuses %d C at salinity %d", (temperature, salinity) => {
    expect(() => waterDensity(temperature, salinity)).toThrow(RangeError);
  });
});

describe("Foams", () => {
  // ASTM C578-10 table 1: compressive resistance, kPa, least density, kg/m3.
  test.each([
    ["XPS X", 104, 21],
    ["XPS IV", 173, 25],
    ["XPS VI", 276, 29],
    ["XPS VII", 414, 35],
    ["XPS V", 690, 48],
  ])("%s: %d kPa, %d kg/m3", (name, strength, density) => {
    expect(foam(name)).toMatchObject({ strength, density });
  });

  test("XPS IV would reach its test strength at 17.2 m of sea water and is used to a third of that", () => {
    expect(foam("XPS IV").usableDepth * 3).toBeCloseTo(17.2, 1);
  });

  test("soft PE foam keeps three quarters at 40 kPa (4 m) and half at 115 kPa", () => {
    expect(polyethyleneFoamVolume(0)).toBe(1);
    expect(polyethyleneFoamVolume(40)).toBeCloseTo(0.75, 9);
    expect(polyethyleneFoamVolume(115)).toBeCloseTo(0.5, 9);
    expect(polyethyleneFoamVolume(57.5)).toBeCloseTo(0.675, 9);
    expect(polyethyleneFoamVolume(175)).toBeCloseTo(0.4, 9);
  });

  test.each([-1, 175.1, Number.NaN])("its curve does not reach %d kPa", (pressure) => {
    expect(() => polyethyleneFoamVolume(pressure)).toThrow(RangeError);
  });
});
