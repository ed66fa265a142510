import {
  type Contour,
  type CuttingMethod,
  type CuttingParameters,
  checkCuttability,
  circle,
  clockwise,
  type Feature,
  type FeatureKind,
  type Finding,
  obround,
  type Plate,
  type Point,
  placeRegion,
  polygon,
  rectangle,
  roundedPolygon,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

/** A hair: less than any shop can measure, more than the kernel's tolerance. */
const hair = 0.001;

interface Opening {
  readonly contour: Contour;
  readonly kind?: FeatureKind;
  readonly name?: string;
}

function plate(outer: Contour, openings: readonly Opening[] = [], more: Partial<Plate> = {}): Plate {
  const features: Feature[] = openings.map(({ kind = "window", name = "window" }, index) => ({
    contour: index,
    kind,
    name,
    why: "a test",
  }));
  return {
    id: "sample",
    name: "sample",
    template: "custom",
    sheet: { material: "PE-HD", thickness: 10 },
    count: 1,
    region: { outer, openings: openings.map(({ contour }) => clockwise(contour)) },
    features: [{ contour: "outline", kind: "outline", name: "outline", why: "a test" }, ...features],
    marks: [],
    rotations: "any",
    mirrorable: true,
    made: "cut",
    seats: [],
    ...more,
  };
}

function by(method: CuttingMethod, kerf: number, more: Partial<CuttingParameters> = {}): CuttingParameters {
  return { method, kerf, clearance: kerf + 2, edgeMargin: 15, compensation: "shop", ...more };
}

const router = by("router", 3.175);
const laser = by("laser", 0.2);
const waterjet = by("waterjet", 1);
const square = rectangle(0, 0, 200, 200);
const acrylic = { sheet: { material: "PMMA cast", thickness: 6 } };

function found(findings: readonly Finding[], what: string): Finding[] {
  return findings.filter(({ id }) => id === `cuttability.${what}`);
}

/** The middle of the square, where no edge is near. */
function hole(diameter: number, at: Point = { x: 100, y: 100 }): Opening {
  return { contour: circle(at, diameter / 2), kind: "screw-hole", name: "screw hole" };
}

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
