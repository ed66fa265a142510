import { type Contour, checkCuttability, obround, polygon, rectangle } from "@keelcut/geometry";
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

describe("Openings", () => {
  const least = 3.175 + 0.3;

  test("a round hole of cutter + 0.3 is routed; a hair less wants a drill", () => {
    expect(found(checkCuttability(plate(square, [hole(least)]), router), "opening")).toEqual([]);
    const [finding] = found(checkCuttability(plate(square, [hole(least - hair)]), router), "opening");
    expect(finding).toMatchObject({ severity: "warning", limit: least });
    expect(finding?.measured).toBeCloseTo(least - hair, 9);
    expect(finding?.message).toContain("drilled");
  });

  test("a round hole below the cutter is drilled by the shop, but a file cannot hold it", () => {
    const [shop] = found(checkCuttability(plate(square, [hole(2.4)]), router), "opening");
    expect(shop?.severity).toBe("warning");
    const inFile = by("router", 3.175, { compensation: "file" });
    const [file] = found(checkCuttability(plate(square, [hole(2.4)]), inFile), "opening");
    expect(file?.severity).toBe("error");
  });

  test.each([
    ["a rectangle", (w: number) => rectangle(80, 90, 40, w)],
    ["an obround", (w: number) => obround({ x: 80, y: 100 }, { x: 120, y: 100 }, w)],
  ])("%s of cutter + 0.3 passes, a hair less is a warning, less than the cutter an error", (_, shape) => {
    const check = (width: number) =>
      found(checkCuttability(plate(square, [{ contour: shape(width) }]), router), "opening");
    expect(check(least)).toEqual([]);
    const [narrow] = check(least - 3 * hair);
    expect(narrow?.severity).toBe("warning");
    expect(Math.abs((narrow?.measured ?? 0) - (least - 3 * hair))).toBeLessThan(0.0011);
    const [blocked] = check(3.175 - 3 * hair);
    expect(blocked?.severity).toBe("error");
    expect(check(3.175 + 3 * hair)[0]?.severity).toBe("warning");
  });

  test("the narrowest place of an opening counts, not its size", () => {
    const dumbbell = (neck: number): Opening => ({
      contour: polygon([
        { x: 60, y: 80 },
        { x: 90, y: 80 },
        { x: 90, y: 100 - neck / 2 },
        { x: 110, y: 100 - neck / 2 },
        { x: 110, y: 80 },
        { x: 140, y: 80 },
        { x: 140, y: 120 },
        { x: 110, y: 120 },
        { x: 110, y: 100 + neck / 2 },
        { x: 90, y: 100 + neck / 2 },
        { x: 90, y: 120 },
        { x: 60, y: 120 },
      ]),
    });
    expect(found(checkCuttability(plate(square, [dumbbell(least)]), router), "opening")).toEqual([]);
    const [finding] = found(checkCuttability(plate(square, [dumbbell(3)]), router), "opening");
    expect(finding?.severity).toBe("error");
    expect(Math.abs((finding?.measured ?? 0) - 3)).toBeLessThan(0.0011);
  });

  test("a laser hole is at least half the sheet", () => {
    expect(found(checkCuttability(plate(square, [hole(3)], acrylic), laser), "opening")).toEqual([]);
    expect(
      found(checkCuttability(plate(square, [hole(3 - hair)], acrylic), laser), "opening")[0],
    ).toMatchObject({ severity: "warning", limit: 3 });
  });

  test("a waterjet hole is at least 1.8 mm", () => {
    expect(found(checkCuttability(plate(square, [hole(1.8)]), waterjet), "opening")).toEqual([]);
    expect(found(checkCuttability(plate(square, [hole(1.8 - hair)]), waterjet), "opening")).toHaveLength(1);
  });

  test("alike holes are one finding with a count", () => {
    const holes = [40, 80, 120, 160].map((x) => hole(3, { x, y: 100 }));
    const findings = found(checkCuttability(plate(square, holes), router), "opening");
    expect(findings).toHaveLength(1);
    expect(findings[0]?.message).toContain("4 x screw hole, the first at (40, 100)");
  });

  test("the shop's own limit replaces the built-in one", () => {
    const limits = { smallestOpening: 5 };
    expect(found(checkCuttability(plate(square, [hole(5)]), router, limits), "opening")).toEqual([]);
    expect(
      found(checkCuttability(plate(square, [hole(5 - hair)]), router, limits), "opening")[0],
    ).toMatchObject({ limit: 5, source: "Shop profile" });
  });
});

describe("Notches of the outline", () => {
  const notched = (width: number): Contour =>
    polygon([
      { x: 0, y: 0 },
      { x: 200, y: 0 },
      { x: 200, y: 100 },
      { x: 100 + width / 2, y: 100 },
      { x: 100 + width / 2, y: 50 },
      { x: 100 - width / 2, y: 50 },
      { x: 100 - width / 2, y: 100 },
      { x: 0, y: 100 },
    ]);
  const round = (width: number): Contour => {
    const [right, left] = [100 + width / 2, 100 - width / 2];
    return [
      { x: 0, y: 0, bulge: 0 },
      { x: 200, y: 0, bulge: 0 },
      { x: 200, y: 100, bulge: 0 },
      { x: right, y: 100, bulge: 0 },
      { x: right, y: 50, bulge: -1 },
      { x: left, y: 50, bulge: 0 },
      { x: left, y: 100, bulge: 0 },
      { x: 0, y: 100, bulge: 0 },
    ];
  };

  test.each([
    ["square", notched],
    ["round", round],
  ])("a %s notch a hair wider than the cut is cut, a hair narrower is an error", (_, shape) => {
    expect(found(checkCuttability(plate(shape(3.175 + hair)), router), "notch")).toEqual([]);
    const [finding] = found(checkCuttability(plate(shape(3.175 - hair)), router), "notch");
    expect(finding?.severity).toBe("error");
    expect(found(checkCuttability(plate(shape(3.175 - hair)), laser), "notch")).toEqual([]);
  });

  test("a notch in the side of an opening is one too", () => {
    const keyed = (width: number): Opening => ({
      contour: polygon([
        { x: 60, y: 60 },
        { x: 120, y: 60 },
        { x: 120, y: 90 - width / 2 },
        { x: 130, y: 90 - width / 2 },
        { x: 130, y: 90 + width / 2 },
        { x: 120, y: 90 + width / 2 },
        { x: 120, y: 120 },
        { x: 60, y: 120 },
      ]),
    });
    expect(found(checkCuttability(plate(square, [keyed(3.175 + hair)]), router), "notch")).toEqual([]);
    const [finding] = found(checkCuttability(plate(square, [keyed(2)]), router), "notch");
    expect(finding?.severity).toBe("error");
    expect(finding?.message).toMatch(/\(130, (89|90|91)\)/);
    expect(found(checkCuttability(plate(square, [keyed(2)]), laser), "notch")).toEqual([]);
  });

  test("a shallow narrow notch is found beside a sharp corner that keeps more than its depth", () => {
    const outline = polygon([
      { x: 0, y: 0 },
      { x: 200, y: 0 },
      { x: 200, y: 100 },
      { x: 160, y: 100 },
      { x: 150, y: 30 },
      { x: 140, y: 100 },
      { x: 51.5, y: 100 },
      { x: 51.5, y: 98 },
      { x: 48.5, y: 98 },
      { x: 48.5, y: 100 },
      { x: 0, y: 100 },
    ]);
    const [finding] = found(checkCuttability(plate(outline), router), "notch");
    expect(finding?.message).toMatch(/\((51.5|48.5), 98\)/);
  });

  test("a keyhole whose mouth is too narrow is an error although its bottom is wide", () => {
    const half = 1.2;
    const depth = Math.sqrt(10 ** 2 - half ** 2);
    const sweep = 2 * Math.PI - 2 * Math.asin(half / 10);
    const keyhole: Contour = [
      { x: 0, y: 0, bulge: 0 },
      { x: 200, y: 0, bulge: 0 },
      { x: 200, y: 100, bulge: 0 },
      { x: 100 + half, y: 100, bulge: 0 },
      { x: 100 + half, y: 50 + depth, bulge: -Math.tan(sweep / 4) },
      { x: 100 - half, y: 50 + depth, bulge: 0 },
      { x: 100 - half, y: 100, bulge: 0 },
      { x: 0, y: 100, bulge: 0 },
    ];
    expect(found(checkCuttability(plate(keyhole), router), "notch")).toHaveLength(1);
    expect(found(checkCuttability(plate(keyhole), waterjet), "notch")).toEqual([]);
  });
});
