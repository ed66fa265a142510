import { checkCuttability, circle, rectangle } from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import {
  acrylic,
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

describe("Webs", () => {
  const two = (web: number): Opening[] => [hole(20, { x: 60, y: 100 }), hole(20, { x: 80 + web, y: 100 })];

  test.each([
    ["router", router, 2],
    ["laser", laser, 10],
    ["waterjet", waterjet, 5],
  ])("by %s on 10 mm: the limit passes, a hair less is a warning", (_, cutting, limit) => {
    expect(found(checkCuttability(plate(square, two(limit)), cutting), "web")).toEqual([]);
    const [finding] = found(checkCuttability(plate(square, two(limit - hair)), cutting), "web");
    expect(finding).toMatchObject({ severity: "warning", limit });
    expect(finding?.measured).toBeCloseTo(limit - hair, 9);
  });

  test("on 1.5 mm sheet the least of 1.5 (router) and 1 mm (laser, of a 0.8 mm sheet) holds", () => {
    const thin = (thickness: number) => ({ sheet: { material: "PMMA cast", thickness } });
    expect(found(checkCuttability(plate(square, two(1.5), thin(1.5)), router), "web")).toEqual([]);
    expect(found(checkCuttability(plate(square, two(1.5 - hair), thin(1.5)), router), "web")).toHaveLength(1);
    expect(found(checkCuttability(plate(square, two(1), thin(0.8)), laser), "web")).toEqual([]);
    expect(found(checkCuttability(plate(square, two(1 - hair), thin(0.8)), laser), "web")).toHaveLength(1);
  });

  test("alike pairs are one finding that shows the thinnest", () => {
    const holes = [40, 61.5, 82.7].map((x) => hole(20, { x, y: 100 }));
    const [finding, ...others] = found(checkCuttability(plate(square, holes), router), "web");
    expect(others).toEqual([]);
    expect(finding?.measured).toBeCloseTo(1.2, 9);
    expect(finding?.message).toContain("2 x web between two of screw hole, the thinnest at (72.1, 100)");
  });

  test("below half a millimetre nothing stays standing", () => {
    const severity = (web: number) =>
      found(checkCuttability(plate(square, two(web), acrylic), laser), "web").map((each) => each.severity);
    expect(severity(0.5)).toEqual(["warning"]);
    expect(severity(0.5 - hair)).toEqual(["error"]);
  });

  test("a web to the outline counts like one between openings", () => {
    const window = (web: number): Opening => ({ contour: rectangle(web, 50, 40, 100) });
    expect(found(checkCuttability(plate(square, [window(2)]), router), "web")).toEqual([]);
    expect(found(checkCuttability(plate(square, [window(2 - hair)]), router), "web")[0]?.message).toContain(
      "web between window and outline",
    );
  });

  test("the shop's own limit replaces the built-in one", () => {
    expect(found(checkCuttability(plate(square, two(3)), router, { smallestWeb: 3 }), "web")).toEqual([]);
    expect(
      found(checkCuttability(plate(square, two(3 - hair)), router, { smallestWeb: 3 }), "web"),
    ).toHaveLength(1);
    // A shop that cuts webs of 0.3 mm is believed.
    expect(found(checkCuttability(plate(square, two(0.3)), router, { smallestWeb: 0.3 }), "web")).toEqual([]);
    expect(
      found(checkCuttability(plate(square, two(0.3 - hair)), router, { smallestWeb: 0.3 }), "web"),
    ).toMatchObject([{ limit: 0.3 }]);
  });
});

describe("Holes and slots near the edge", () => {
  const near = (gap: number): Opening => hole(10, { x: gap + 5, y: 100 });

  test.each([
    ["router", router, 8],
    ["waterjet", waterjet, 8],
  ])("by %s a 10 mm hole wants 8 mm beside it", (_, cutting, limit) => {
    expect(found(checkCuttability(plate(square, [near(limit)]), cutting), "hole-to-edge")).toEqual([]);
    const [finding] = found(checkCuttability(plate(square, [near(limit - hair)]), cutting), "hole-to-edge");
    expect(finding).toMatchObject({ severity: "warning", limit });
    expect(finding?.measured).toBeCloseTo(limit - hair, 9);
  });

  test("by laser a 10 mm hole in 6 mm sheet wants its own diameter", () => {
    expect(found(checkCuttability(plate(square, [near(10)], acrylic), laser), "hole-to-edge")).toEqual([]);
    expect(
      found(checkCuttability(plate(square, [near(10 - hair)], acrylic), laser), "hole-to-edge"),
    ).toHaveLength(1);
  });

  test("a slot wants one and a half of its width, along and across alike", () => {
    const slot = (gap: number, upright: boolean): Opening => ({
      contour: upright ? rectangle(gap, 50, 8, 60) : rectangle(50, gap, 60, 8),
      kind: "tie-slot",
      name: "tie slot",
    });
    for (const upright of [true, false]) {
      expect(found(checkCuttability(plate(square, [slot(12, upright)]), router), "hole-to-edge")).toEqual([]);
      expect(
        found(checkCuttability(plate(square, [slot(12 - hair, upright)]), router), "hole-to-edge"),
      ).toHaveLength(1);
    }
  });

  test("a window needs its web only, and a web that is too thin is said once", () => {
    expect(
      found(
        checkCuttability(plate(square, [{ contour: circle({ x: 23, y: 100 }, 20) }]), router),
        "hole-to-edge",
      ),
    ).toEqual([]);
    const findings = checkCuttability(plate(square, [near(1)]), router);
    expect(found(findings, "hole-to-edge")).toEqual([]);
    expect(found(findings, "web")).toHaveLength(1);
  });
});
