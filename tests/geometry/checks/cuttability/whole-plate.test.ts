import {
  type Contour,
  checkCuttability,
  circle,
  type Plate,
  placeRegion,
  polygon,
  rectangle,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";
import {
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

describe("Loose cores", () => {
  // The core of a round hole is its diameter less two kerfs.
  test.each([
    ["router", router, 10 + 2 * 3.175],
    ["laser", laser, 25.4],
    ["waterjet", waterjet, 27],
  ])("by %s a hole of %d leaves one, a hair less does not", (_, cutting, diameter) => {
    const [finding] = found(checkCuttability(plate(square, [hole(diameter + hair)]), cutting), "core");
    expect(finding?.severity).toBe("note");
    expect(found(checkCuttability(plate(square, [hole(diameter - hair)]), cutting), "core")).toEqual([]);
  });

  test("a long slot that the cutter clears in two passes leaves none", () => {
    const slot = (width: number): Opening => ({ contour: rectangle(40, 90, 120, width) });
    expect(found(checkCuttability(plate(square, [slot(2 * 3.175 - hair)]), router), "core")).toEqual([]);
    expect(found(checkCuttability(plate(square, [slot(2 * 3.175 + 0.1)]), router), "core")).toHaveLength(1);
  });

  test("several are one note that names the largest", () => {
    const [finding, ...others] = found(
      checkCuttability(plate(square, [hole(40, { x: 50, y: 100 }), hole(60, { x: 140, y: 100 })]), router),
      "core",
    );
    expect(others).toEqual([]);
    expect(finding?.message).toContain("2 openings");
    expect(finding?.measured).toBeCloseTo(60 - 2 * 3.175, 6);
  });
});

describe("Size and slenderness", () => {
  const turned = (outer: Contour, rotation: number): Contour =>
    placeRegion({ outer, openings: [] }, { x: 7, y: 3, rotation, mirrored: false }).outer;

  test.each([0, 30, 45, 90, 137])("20 mm wide is held, a hair less is not, turned by %d degrees", (angle) => {
    const strip = (width: number) => plate(turned(rectangle(0, 0, 60, width), angle));
    expect(found(checkCuttability(strip(20), router), "plate-size")).toEqual([]);
    const [finding] = found(checkCuttability(strip(20 - hair), router), "plate-size");
    expect(finding?.severity).toBe("warning");
    expect(finding?.measured).toBeCloseTo(20 - hair, 6);
  });

  test("a disc of 20 mm is held, one of 19.99 is not", () => {
    const disc = (diameter: number) => plate(circle({ x: 0, y: 0 }, diameter / 2));
    expect(found(checkCuttability(disc(20), router), "plate-size")).toEqual([]);
    expect(found(checkCuttability(disc(19.99), router), "plate-size")).toHaveLength(1);
  });

  test("the shop's own limit replaces the built-in one", () => {
    expect(
      found(
        checkCuttability(plate(rectangle(0, 0, 60, 30)), router, { smallestPlate: 30 + hair }),
        "plate-size",
      ),
    ).toHaveLength(1);
    expect(
      found(checkCuttability(plate(rectangle(0, 0, 60, 12)), router, { smallestPlate: 12 }), "plate-size"),
    ).toEqual([]);
  });

  // (L^2 + W^2) / (L W) = 25 for a rectangle of W = 40 at L = 40 (25 + sqrt 621) / 2.
  test.each([0, 33])("a strip 25 times as long as wide springs, turned by %d degrees", (angle) => {
    const length = 20 * (25 + Math.sqrt(621));
    const strip = (l: number) => plate(turned(rectangle(0, 0, l, 40), angle));
    expect(found(checkCuttability(strip(length - 0.01), router), "slenderness")).toEqual([]);
    const [finding] = found(checkCuttability(strip(length + 0.01), router), "slenderness");
    expect(finding).toMatchObject({ severity: "warning", limit: 25, unit: "1" });
  });
});

describe("Material and thickness", () => {
  const sheet = (material: string, thickness: number) =>
    plate(square, [], { sheet: { material, thickness } });

  test.each(["PVC-U", "PVC foamed"])("%s by laser is an error that names hydrogen chloride", (material) => {
    const [finding] = found(checkCuttability(sheet(material, 5), laser), "hazard");
    expect(finding?.severity).toBe("error");
    expect(finding?.message).toContain("hydrogen chloride");
  });

  test("PVC-U by router or waterjet has no hazard", () => {
    expect(found(checkCuttability(sheet("PVC-U", 5), router), "hazard")).toEqual([]);
    expect(found(checkCuttability(sheet("PVC-U", 5), waterjet), "hazard")).toEqual([]);
  });

  test.each(["ABS", "PC", "PE-HD"])("%s by laser is a warning", (material) => {
    expect(found(checkCuttability(sheet(material, 5), laser), "hazard").map((f) => f.severity)).toEqual([
      "warning",
    ]);
  });

  test("PTFE by laser is an error, an unnamed plastic a warning, acrylic a note", () => {
    const severity = (material: string) =>
      found(checkCuttability(sheet(material, 5), laser), "hazard").map((each) => each.severity);
    expect(severity("PTFE")).toEqual(["error"]);
    expect(severity("mystery sheet")).toEqual(["warning"]);
    expect(severity("PMMA cast")).toEqual(["note"]);
    expect(found(checkCuttability(sheet("mystery sheet", 5), router), "hazard")).toEqual([]);
  });

  test("a router cuts four of its diameters deep", () => {
    expect(found(checkCuttability(sheet("PE-HD", 12.7), router), "depth")).toEqual([]);
    const [finding] = found(checkCuttability(sheet("PE-HD", 12.7 + hair), router), "depth");
    expect(finding).toMatchObject({ severity: "note", limit: 12.7 });
    expect(found(checkCuttability(sheet("PE-HD", 15), by("router", 4)), "depth")).toEqual([]);
  });

  test("a laser cuts 12 mm", () => {
    expect(found(checkCuttability(sheet("PMMA cast", 12), laser), "depth")).toEqual([]);
    expect(found(checkCuttability(sheet("PMMA cast", 12 + hair), laser), "depth")).toHaveLength(1);
  });
});

describe("However a plate lies", () => {
  const busy = plate(
    polygon([
      { x: 0, y: 0 },
      { x: 160, y: 0 },
      { x: 160, y: 60 },
      { x: 83, y: 60 },
      { x: 83, y: 30 },
      { x: 80, y: 30 },
      { x: 80, y: 60 },
      { x: 0, y: 60 },
    ]),
    [
      hole(3, { x: 20, y: 20 }),
      hole(8, { x: 9, y: 45 }),
      { contour: rectangle(100, 20, 40, 10), kind: "tab-slot", name: "tab slot" },
      { contour: rectangle(100, 31, 40, 3), kind: "tie-slot", name: "tie slot" },
      { contour: circle({ x: 50, y: 30 }, 20) },
    ],
  );
  const facts = (sample: Plate) =>
    checkCuttability(sample, router).map(({ id, severity, measured, limit }) => [
      id,
      severity,
      measured?.toFixed(2),
      limit?.toFixed(2),
    ]);

  test("the sample has something to say in most families", () => {
    expect(new Set(facts(busy).map(([id]) => id)).size).toBeGreaterThanOrEqual(6);
  });

  test.each([
    [0, true],
    [30, false],
    [90, false],
    [123.4, true],
    [180, false],
    [270, true],
  ])("turned by %d degrees, mirrored %s, the findings are the same", (rotation, mirrored) => {
    const region = placeRegion(busy.region, { x: 311, y: -42, rotation, mirrored });
    expect(facts({ ...busy, region }).sort()).toEqual(facts(busy).sort());
  });
});
