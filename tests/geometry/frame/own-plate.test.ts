import {
  bounds,
  checkFrame,
  type Finding,
  type Frame,
  type OwnPlateParameters,
  regionArea,
  regionFaults,
} from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { checkAssembly } from "../../../packages/geometry/src/checks/assembly-check.js";
import { framed, ownPlate as own, plateOf, seat } from "./own-plate-sample.js";
import { tealParameters } from "./teal.js";

const origin = { x: 0, y: 0 };

function errors(frame: Frame): readonly Finding[] {
  return checkFrame(frame).filter((finding) => finding.severity === "error");
}

describe("outlines", () => {
  it.each([
    ["rectangle", { kind: "rectangle", width: 80, height: 30, radius: 0, at: origin }, 2400],
    [
      "rounded rectangle",
      { kind: "rectangle", width: 80, height: 30, radius: 5, at: origin },
      2400 - (4 - Math.PI) * 25,
    ],
    ["round", { kind: "round", diameter: 50, at: { x: 7, y: 9 } }, Math.PI * 625],
    [
      "triangle",
      {
        kind: "polygon",
        corners: [
          { x: 0, y: 0, radius: 0 },
          { x: 60, y: 0, radius: 0 },
          { x: 0, y: 40, radius: 0 },
        ],
      },
      1200,
    ],
    // Two equal circles 60 apart: a rectangle and two half discs.
    [
      "hull",
      {
        kind: "hull",
        circles: [
          { at: { x: -30, y: 0 }, diameter: 20 },
          { at: { x: 30, y: 0 }, diameter: 20 },
        ],
      },
      60 * 20 + Math.PI * 100,
    ],
  ] as const)("%s has the area of its formula", (_, outline, area) => {
    const plate = plateOf(framed([own("part", { outline, loose: 2 })]), "own-part");
    expect(regionArea(plate.region)).toBeCloseTo(area, 6);
    expect([plate.count, plate.seats.length]).toEqual([2, 0]);
  });

  it("cannot be drawn is a finding that names the plate, and the others are drawn all the same", () => {
    const bad = own("bad", {
      outline: { kind: "rectangle", width: 20, height: 10, radius: 8, at: origin },
      loose: 1,
    });
    const frame = framed([bad, own("good", { loose: 1 })]);
    expect(plateOf(frame, "own-good").count).toBe(1);
    expect(errors(frame)).toMatchObject([{ id: "plate.cannot-be-drawn", place: "plates.bad" }]);
    expect(errors(frame)[0]?.message).toMatch(/radius 8 does not fit/);
  });
});

describe("holes", () => {
  const big: OwnPlateParameters["outline"] = { kind: "round", diameter: 140, at: origin };
  const six = { kind: "diameter", diameter: 6 } as const;
  it.each([
    ["single", { kind: "single" }, [[10, 5]]],
    [
      "row",
      { kind: "row", count: 3, pitch: 20 },
      [
        [-10, 5],
        [10, 5],
        [30, 5],
      ],
    ],
    [
      "grid",
      { kind: "grid", columns: 2, rows: 2, pitch: { x: 30, y: 20 } },
      [
        [-5, -5],
        [25, -5],
        [-5, 15],
        [25, 15],
      ],
    ],
    [
      "ring",
      { kind: "ring", diameter: 40, count: 4 },
      [
        [30, 5],
        [10, 25],
        [-10, 5],
        [10, -15],
      ],
    ],
    // Two holes on each of two circles, never a rectangle.
    [
      "cross",
      { kind: "cross", diameters: [16, 24] },
      [
        [18, 5],
        [10, 17],
        [2, 5],
        [10, -7],
      ],
    ],
  ] as const)("a %s has its holes where they belong", (_, pattern, centres) => {
    const holes = [{ at: { x: 10, y: 5 }, hole: six, pattern, rotation: 0 }];
    const { region } = plateOf(framed([own("part", { outline: big, holes, loose: 1 })]), "own-part");
    const found = region.openings
      .map(bounds)
      .map((box) => [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]);
    expect(found.length).toBe(centres.length);
    for (const [x, y] of centres) {
      const off = found.map(([fx = 0, fy = 0]) => Math.hypot(fx - x, fy - y));
      expect(Math.min(...off)).toBeLessThan(1e-9);
    }
  });

  it("for screws follow ISO 273", () => {
    const holes = (["fine", "medium", "coarse"] as const).map((fit, index) => ({
      at: { x: 20 * index, y: 0 },
      hole: { kind: "screw", thread: "M5", fit } as const,
      pattern: { kind: "single" } as const,
      rotation: 0,
    }));
    const { region, features } = plateOf(
      framed([own("part", { outline: big, holes, loose: 1 })]),
      "own-part",
    );
    // ISO 273, M5: 5.3, 5.5, 5.8.
    const sizes = region.openings.map(bounds).map((box) => box.maxX - box.minX);
    for (const [index, size] of [5.3, 5.5, 5.8].entries()) expect(sizes[index]).toBeCloseTo(size, 9);
    expect(features.filter((feature) => feature.kind === "screw-hole")).toHaveLength(3);
  });

  it("that run into each other or over the edge are errors", () => {
    const holes = [{ at: { x: 68, y: 0 }, hole: six, pattern: { kind: "single" } as const, rotation: 0 }];
    expect(errors(framed([own("part", { outline: big, holes, loose: 1 })])).map(({ id }) => id)).toContain(
      "plate.region",
    );
  });
});

describe("tabs", () => {
  const mount = (change: Partial<OwnPlateParameters> = {}): OwnPlateParameters =>
    own("mount", {
      tabs: [{ into: "deck", at: { x: 0, y: 0 }, length: 24 }],
      seats: [seat(140, 0, 0, "across")],
      ...change,
    });

  it("into the deck get a slot there, with play, and everything assembles", () => {
    const frame = framed([mount()]);
    expect(errors(frame)).toEqual([]);
    const deck = plateOf(frame, "deck");
    const slot = deck.features.find((feature) => feature.why.includes("mount"));
    expect(slot).toMatchObject({ kind: "tab-slot" });
    const box = bounds(deck.region.openings[slot?.contour as number] ?? []);
    expect((box.minX + box.maxX) / 2).toBeCloseTo(145, 9);
    expect((box.minY + box.maxY) / 2).toBeCloseTo(0, 9);
    // ISO 14631-like tolerance of PE-HD is added by the layout: at least the sheet and its play.
    expect(box.maxX - box.minX).toBeGreaterThan(10.2);
    // A tab of 24 with 0.4 mm end play, and reliefs beyond.
    expect(box.maxY - box.minY).toBeGreaterThanOrEqual(24.4);
    const outline = bounds(plateOf(frame, "own-mount").region.outer);
    expect([outline.minY, outline.maxY]).toEqual([-10, 40]);
  });

  it("is seen to be missing when the deck has no slot for it", () => {
    const frame = framed([mount()]);
    const plates = frame.plates.map((plate) =>
      plate.id === "deck"
        ? {
            ...plate,
            region: {
              ...plate.region,
              openings: plate.region.openings.filter(
                (_, index) =>
                  !plate.features.some((one) => one.contour === index && one.why.includes("mount")),
              ),
            },
          }
        : plate,
    );
    expect(checkAssembly({ ...frame, plates }).map((finding) => finding.place)).toContain(
      "deck and own-mount",
    );
  });

  it("that stop short of the deck say by how much", () => {
    expect(errors(framed([mount({ seats: [seat(140, 0, 3, "across")] })]))).toMatchObject([
      { place: "plates.mount", message: expect.stringContaining("ends 3 mm before the face of the deck") },
    ]);
  });

  it("on no straight side, or too long for it, say so", () => {
    const off = mount({ tabs: [{ into: "deck", at: { x: 0, y: 5 }, length: 24 }] });
    expect(errors(framed([off]))[0]?.message).toMatch(/no straight side/);
    const long = mount({ tabs: [{ into: "deck", at: { x: 20, y: 0 }, length: 24 }] });
    expect(errors(framed([long]))[0]?.message).toMatch(/room for 20 mm/);
  });

  it("turned in the vehicle turn their slots with them", () => {
    // The plate lies like a cheek: its slot in the deck runs along x.
    const frame = framed([mount({ seats: [seat(130, 20, 0, "along")] })]);
    expect(errors(frame)).toEqual([]);
    const deck = plateOf(frame, "deck");
    const slot = deck.features.find((feature) => feature.why.includes("mount"))?.contour as number;
    const box = bounds(deck.region.openings[slot] ?? []);
    expect(box.maxX - box.minX).toBeGreaterThan(24);
    expect((box.minY + box.maxY) / 2).toBeCloseTo(25, 9);
  });

  it("into a bulkhead and into another own plate", () => {
    const shelf = own("shelf", {
      outline: { kind: "rectangle", width: 60, height: 40, radius: 0, at: origin },
      tabs: [{ into: "bow", at: { x: -30, y: 0 }, length: 20 }],
      seats: [seat(170, 0, 20, "flat")],
    });
    const bulkheads = [{ id: "bow", x: 135, height: 60 }];
    const stop = own("stop", {
      outline: { kind: "rectangle", width: 30, height: 20, radius: 0, at: { x: 0, y: 10 } },
      tabs: [{ into: "shelf", at: { x: 0, y: 0 }, length: 15 }],
      seats: [seat(180, 0, 30, "across")],
    });
    const deck = { ...tealParameters("75").deck, width: 240, length: 440 };
    const frame = framed([shelf, stop], { bulkheads, deck });
    expect(errors(frame)).toEqual([]);
    expect(plateOf(frame, "bulkhead").features.some((one) => one.why.includes("shelf"))).toBe(true);
    expect(plateOf(frame, "own-shelf").features.some((one) => one.why.includes("stop"))).toBe(true);
  });

  it("into a plate that is not there names those that are", () => {
    const lost = mount({ tabs: [{ into: "dekc", at: { x: 0, y: 0 }, length: 24 }] });
    expect(errors(framed([lost]))[0]?.message).toMatch(/no plate "dekc".*known: deck, cheek/);
  });
});

describe("half-lap joints", () => {
  const crate = (laps: OwnPlateParameters["laps"]): readonly OwnPlateParameters[] => [
    own("long", { laps, seats: [seat(146, -5, 0, "along")] }),
    own("cross", { seats: [seat(141, 0, 0, "across")] }),
  ];

  it("let two plates cross", () => {
    const frame = framed(crate([{ with: "cross" }]));
    expect(errors(frame)).toEqual([]);
    const [long, cross] = [plateOf(frame, "own-long"), plateOf(frame, "own-cross")];
    expect(regionFaults(long.region)).toEqual([]);
    // Each loses half of its height of 40 (and half the play) over the other's thickness and more, never more than 14 mm.
    for (const plate of [long, cross]) {
      const lost = 60 * 40 - regionArea(plate.region);
      expect(lost).toBeGreaterThan(20.2 * 10.2);
      expect(lost).toBeLessThan(22 * 14);
    }
  });

  it("are missed when they are taken out", () => {
    expect(errors(framed(crate([]))).map(({ id, place }) => [id, place])).toEqual([
      ["fit.plates-meet", "own-long and own-cross"],
    ]);
  });

  it("of plates that do not cross say so", () => {
    const [long, cross] = crate([{ with: "cross" }]);
    if (long === undefined || cross === undefined) throw new Error("two plates");
    const apart = { ...cross, seats: [seat(60, 0, 130, "across")] };
    expect(errors(framed([long, apart])).some(({ message }) => /does not cross/.test(message))).toBe(true);
  });
});

describe("drawn plates", () => {
  it("without a usable contour are left out, with what was found", () => {
    const findings: Finding[] = [
      {
        id: "import.nothing",
        severity: "error",
        place: "TEXT in line 12",
        message: "there is no closed contour in the file",
        why: "w",
        source: "s",
      },
    ];
    const frame = framed([own("part", { outline: { kind: "drawn", file: "part.dxf", findings }, loose: 1 })]);
    expect(frame.plates.some(({ id }) => id === "own-part")).toBe(false);
    expect(errors(frame)).toMatchObject([
      { id: "import.nothing", place: "plates.part, part.dxf: TEXT in line 12" },
    ]);
  });
});
