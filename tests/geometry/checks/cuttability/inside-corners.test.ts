import { checkCuttability, clockwise, polygon, rectangle, roundedPolygon } from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import {
  acrylic,
  by,
  found,
  hair,
  hole,
  laser,
  type Opening,
  plate,
  router,
  square,
  waterjet,
} from "./sample-plates.js";

describe("A plain plate", () => {
  test.each([
    ["router", router],
    ["laser", laser],
    ["waterjet", waterjet],
  ])("of acrylic has nothing to say by %s beyond its hazard note", (_, cutting) => {
    const findings = checkCuttability(plate(square, [hole(20)], acrylic), cutting);
    expect(findings.filter(({ severity }) => severity !== "note")).toEqual([]);
  });

  test("that is printed is not cut", () => {
    expect(
      checkCuttability(plate(rectangle(0, 0, 5, 400), [hole(1, { x: 2, y: 2 })], { made: "printed" }), laser),
    ).toEqual([]);
  });

  test("gives every finding a place, a reason and a source", () => {
    const bad = plate(rectangle(0, 0, 15, 600), [hole(2, { x: 3, y: 3 })], {
      sheet: { material: "PVC-U", thickness: 15 },
    });
    const findings = [router, laser, waterjet].flatMap((cutting) => checkCuttability(bad, cutting));
    expect(findings.length).toBeGreaterThan(10);
    for (const finding of findings) {
      expect(finding.place).toBe("sample");
      expect(finding.why).not.toBe("");
      expect(finding.source).not.toBe("");
      expect(finding.message).not.toMatch(/undefined|NaN|Infinity/);
      for (const value of [finding.measured, finding.limit])
        expect(value === undefined || Number.isFinite(value)).toBe(true);
    }
  });

  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])(
    "a kerf or thickness of %d is refused",
    (value) => {
      expect(() => checkCuttability(plate(square), by("router", value))).toThrow(RangeError);
      expect(() =>
        checkCuttability(plate(square, [], { sheet: { material: "PC", thickness: value } }), router),
      ).toThrow(RangeError);
      expect(() => checkCuttability(plate(square), router, { smallestWeb: value })).toThrow(RangeError);
    },
  );
});

describe("Inside corners", () => {
  const slot = (corner: number): Opening => ({
    contour: roundedPolygon(
      [
        { x: 80, y: 95 },
        { x: 120, y: 95 },
        { x: 120, y: 105 },
        { x: 80, y: 105 },
      ].map((point) => ({ ...point, radius: corner })),
    ),
    kind: "tab-slot",
    name: "tab slot",
  });

  test("four sharp corners of a tab slot keep 0.4142 of the cutter's radius each", () => {
    const [finding, ...others] = found(checkCuttability(plate(square, [slot(0)]), router), "inside-corner");
    expect(others).toEqual([]);
    expect(finding?.severity).toBe("warning");
    expect(finding?.measured).toBeCloseTo((3.175 / 2) * (Math.SQRT2 - 1), 9);
    expect(finding?.measured).toBeCloseTo(0.6576, 4);
    expect(finding?.message).toMatch(/4 x sharp inside corner of tab slot.*relieve/);
  });

  test("a corner rounded with the cutter's radius is cut as drawn", () => {
    expect(found(checkCuttability(plate(square, [slot(3.175 / 2)]), router), "inside-corner")).toEqual([]);
  });

  // (R - r)(sqrt 2 - 1) = 0.1 at r = R - 0.2414.
  test("what a rounded corner keeps is the difference of the radii times 0.4142", () => {
    const most = 3.175 / 2 - 0.1 / (Math.SQRT2 - 1);
    expect(found(checkCuttability(plate(square, [slot(most + hair)]), router), "inside-corner")).toEqual([]);
    const [finding] = found(checkCuttability(plate(square, [slot(most - hair)]), router), "inside-corner");
    expect(finding?.measured).toBeCloseTo(0.1 + hair * (Math.SQRT2 - 1), 9);
  });

  test("a laser needs no relief, a waterjet does", () => {
    expect(found(checkCuttability(plate(square, [slot(0)]), laser), "inside-corner")).toEqual([]);
    expect(found(checkCuttability(plate(square, [slot(0)]), waterjet), "inside-corner")).toHaveLength(1);
  });

  test("a window's corner is a note", () => {
    const window = { ...slot(0), kind: "window", name: "window" } as const;
    expect(
      found(checkCuttability(plate(square, [window]), router), "inside-corner").map((f) => f.severity),
    ).toEqual(["note"]);
  });

  test("a sharper corner keeps more: 60 degrees keep a whole radius", () => {
    const triangle = polygon([
      { x: 80, y: 80 },
      { x: 120, y: 80 },
      { x: 100, y: 80 + 20 * Math.sqrt(3) },
    ]);
    const [finding] = found(
      checkCuttability(plate(square, [{ contour: triangle }]), router),
      "inside-corner",
    );
    expect(finding?.measured).toBeCloseTo(3.175 / 2, 9);
    expect(finding?.message).toContain("3 x");
  });

  test("corners of the outline count only where the material bends inwards", () => {
    const ell = polygon([
      { x: 0, y: 0 },
      { x: 200, y: 0 },
      { x: 200, y: 50 },
      { x: 50, y: 50 },
      { x: 50, y: 200 },
      { x: 0, y: 200 },
    ]);
    const [finding, ...others] = found(checkCuttability(plate(ell), router), "inside-corner");
    expect(others).toEqual([]);
    expect(finding?.message).toContain("(50, 50)");
    // The kernel wants counter-clockwise outlines; the check does not depend on it.
    expect(found(checkCuttability(plate(clockwise(ell)), router), "inside-corner")).toEqual([finding]);
  });
});
