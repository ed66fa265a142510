import { hazardsOf, sheetMaterial } from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

describe("ISO 7823-1: cast acrylic is +-(0.4 + 0.1 t)", () => {
  // The table printed beside the formula.
  test.each([
    [3, 0.7],
    [5, 0.9],
    [6, 1.0],
    [8, 1.2],
    [10, 1.4],
    [12, 1.6],
    [15, 1.9],
    [20, 2.4],
  ])("%d mm: +-%d", (t, tolerance) => {
    expect(sheetMaterial("PMMA cast").thicknessTolerance(t)).toBeCloseTo(tolerance, 9);
  });
});

describe("ISO 7823-2: extruded acrylic is +-10 % below 3 mm and +-5 % from 3 mm", () => {
  test.each([
    [2, 0.2],
    [2.99, 0.299],
    [3, 0.15],
    [10, 0.5],
  ])("%d mm: +-%d", (t, tolerance) => {
    expect(sheetMaterial("PMMA extruded").thicknessTolerance(t)).toBeCloseTo(tolerance, 9);
  });
});

describe("EN 485-4:1994 table 1, group II, up to 1000 mm wide", () => {
  test.each([
    [2, 0.09],
    [2.5, 0.1],
    [3, 0.11],
    [4, 0.15],
    [5, 0.18],
    [6, 0.2],
    [8, 0.24],
    [10, 0.27],
    [12, 0.32],
  ])("%d mm: +-%d", (t, tolerance) => {
    expect(sheetMaterial("Al 5083").thicknessTolerance(t)).toBe(tolerance);
    expect(sheetMaterial("Al 6061").thicknessTolerance(t)).toBe(tolerance);
  });

  test("outside the table it says so and asks for a measurement", () => {
    expect(() => sheetMaterial("Al 5083").thicknessTolerance(15)).toThrow(/1.5 to 12 mm, not 15 mm: measure/);
  });
});

describe("EN 315 limits of birch plywood: nominal, least, largest", () => {
  test.each([
    [4, 3.5, 4.1],
    [6.5, 6.1, 6.9],
    [9, 8.8, 9.5],
    [12, 11.5, 12.5],
    [15, 14.3, 15.3],
    [18, 17.1, 18.1],
    [21, 20, 20.9],
  ])("%d mm: %d to %d", (t, least, largest) => {
    const tolerance = sheetMaterial("birch plywood").thicknessTolerance(t);
    expect(t - tolerance).toBeLessThanOrEqual(least + 1e-9);
    expect(t + tolerance).toBeGreaterThanOrEqual(largest - 1e-9);
    expect(Math.min(Math.abs(t - tolerance - least), Math.abs(t + tolerance - largest))).toBeLessThan(1e-9);
  });
});

/** Ranges that handbooks and data sheets print, kg/m3 (ISO 1183). */
describe("Density lies in the printed range", () => {
  test.each([
    ["PE-HD", 940, 970],
    ["PP-H", 900, 910],
    ["PVC-U", 1350, 1450],
    ["PVC foamed", 350, 750],
    ["PMMA cast", 1180, 1190],
    ["PC", 1190, 1200],
    ["POM-C", 1390, 1410],
    ["ABS", 1020, 1080],
    ["birch plywood", 660, 710],
    ["Al 5083", 2650, 2670],
    ["Al 6061", 2690, 2710],
  ])("%s: %d to %d", (name, least, largest) => {
    const { density, densityMin, densityMax } = sheetMaterial(name);
    expect(density).toBeGreaterThanOrEqual(least);
    expect(density).toBeLessThanOrEqual(largest);
    expect(densityMin).toBeLessThanOrEqual(density);
    expect(densityMax).toBeGreaterThanOrEqual(density);
  });
});

describe("Stiffness, strength and expansion lie in the printed ranges", () => {
  // Name, E from and to (MPa), yield from and to (MPa), expansion from and to (1e-6/K).
  test.each([
    ["PE-HD", 800, 1080, 20, 30, 100, 220],
    ["PP-H", 1300, 1500, 31, 33, 110, 160],
    ["PVC-U", 2800, 3300, 50, 60, 50, 80],
    ["PMMA cast", 2760, 3300, 62, 80, 70, 80],
    ["PC", 2300, 2400, 58, 65, 65, 70],
    ["POM-C", 2500, 2860, 65, 67, 110, 120],
    ["ABS", 2000, 2400, 38, 43, 87, 95],
    ["Al 6061", 68900, 70000, 276, 276, 23.6, 23.6],
  ])("%s", (name, eFrom, eTo, yieldFrom, yieldTo, expansionFrom, expansionTo) => {
    const material = sheetMaterial(name);
    expect(material.E).toBeGreaterThanOrEqual(eFrom);
    expect(material.E).toBeLessThanOrEqual(eTo);
    expect(material.yield).toBeGreaterThanOrEqual(yieldFrom);
    expect(material.yield).toBeLessThanOrEqual(yieldTo);
    expect(material.expansion * 1e6).toBeGreaterThanOrEqual(expansionFrom - 1e-9);
    expect(material.expansion * 1e6).toBeLessThanOrEqual(expansionTo + 1e-9);
  });

  test("500 mm of PE-HD grows 1.8 mm over 20 K, not the 0.36 of a wrong public table", () => {
    expect(sheetMaterial("PE-HD").expansion * 500 * 20).toBeCloseTo(1.8, 9);
  });

  test("only plywood has a grain", () => {
    const grained = ["PE-HD", "PVC-U", "PMMA cast", "birch plywood", "Al 5083", "XPS"].filter(
      (name) => sheetMaterial(name).grain,
    );
    expect(grained).toEqual(["birch plywood"]);
  });
});

describe("Hazards", () => {
  test.each(["PVC-U", "PVC foamed"])("%s on a laser is refused, naming hydrogen chloride", (name) => {
    const laser = sheetMaterial(name).hazards.laser;
    expect(laser?.severity).toBe("error");
    expect(laser?.message).toContain("hydrogen chloride");
  });

  test.each(["ABS", "PC", "PE-HD", "XPS"])("%s on a laser wants a question", (name) => {
    expect(sheetMaterial(name).hazards.laser?.severity).toBe("warning");
  });

  test("fluoropolymers and laminates are refused although they are not sheet materials here", () => {
    expect(hazardsOf("PTFE").laser?.severity).toBe("error");
    expect(hazardsOf("carbon laminate").laser?.severity).toBe("error");
  });

  test("acrylic may be cut by laser; an unknown or inherited name has no hazards of its own", () => {
    expect(sheetMaterial("PMMA cast").hazards.laser?.severity).toBe("note");
    expect(hazardsOf("unobtainium")).toEqual({});
    expect(hazardsOf("constructor")).toEqual({});
  });
});

describe("Names", () => {
  test.each([
    ["HDPE", "PE-HD"],
    ["acrylic", "PMMA cast"],
    ["PVC", "PVC-U"],
    ["plywood", "birch plywood"],
    ["pe-hd", "PE-HD"],
    ["POM-H", "POM-C"],
  ])("%s is answered with %s", (asked, meant) => {
    expect(() => sheetMaterial(asked)).toThrow(`nearest: ${meant}`);
  });

  test("inherited names are unknown", () => {
    expect(() => sheetMaterial("constructor")).toThrow("no entry");
  });
});

test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("a thickness of %d is refused", (t) => {
  expect(() => sheetMaterial("PE-HD").thicknessTolerance(t)).toThrow(RangeError);
});
