import { cableTie, motorPattern } from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

describe("Cable ties, common practice: thickness, loop strength (kg), slot", () => {
  test.each([
    [2.5, 1, 8.1, 3.2, 1.8],
    [3.6, 1.2, 18.2, 4.5, 2],
    [4.8, 1.3, 22.2, 5.8, 2.2],
    [7.6, 1.6, 54.4, 8.8, 2.6],
  ])("%d mm", (width, thickness, kilograms, slotWidth, slotHeight) => {
    const tie = cableTie(width);
    expect(tie).toMatchObject({ width, thickness, slotWidth, slotHeight });
    expect(Math.abs(tie.loopStrength - kilograms * 9.80665)).toBeLessThan(0.6);
  });

  // Bundle diameters of catalogues: tie length, largest diameter (from memory).
  test.each([
    [2.5, 100, 22],
    [2.5, 150, 35],
    [3.6, 200, 50],
    [3.6, 300, 80],
    [4.8, 250, 65],
    [4.8, 370, 102],
    [7.6, 450, 130],
  ])("%d x %d holds %d mm", (width, length, bundle) => {
    const tie = cableTie(width);
    expect(tie.bundles[tie.lengths.indexOf(length)]).toBe(bundle);
  });
});

describe("Motor bolt patterns, common practice and memory", () => {
  test.each([
    ["stator 11", { kind: "circle", diameter: 9, holes: 4 }, "M2"],
    ["stator 13", { kind: "circle", diameter: 12, holes: 4 }, "M2"],
    ["stator 18", { kind: "circle", diameter: 12, holes: 4 }, "M2"],
    ["stator 22", { kind: "cross", diameters: [16, 19] }, "M3"],
    ["stator 28", { kind: "cross", diameters: [19, 25] }, "M3"],
    ["outrunner 35", { kind: "cross", diameters: [25, 32] }, "M3"],
    ["outrunner 42", { kind: "circle", diameter: 25, holes: 4 }, "M3"],
    ["outrunner 50", { kind: "cross", diameters: [25, 32] }, "M4"],
    ["brushed 370", { kind: "circle", diameter: 16, holes: 2 }, "M3"],
    ["brushed 540", { kind: "circle", diameter: 25, holes: 2 }, "M3"],
    ["NEMA 11", { kind: "rectangle", width: 23, height: 23 }, "M2.5"],
    ["NEMA 14", { kind: "rectangle", width: 26, height: 26 }, "M3"],
    ["NEMA 17", { kind: "rectangle", width: 31, height: 31 }, "M3"],
  ])("%s", (name, pattern, screw) => {
    expect(motorPattern(name)).toMatchObject({ pattern, screw });
  });
});
