import { checkFrame, deriveFrame, type Finding, type FrameParameters } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { checkAssembly } from "../../../packages/geometry/src/checks/assembly-check.js";
import { richParameters } from "./rich.js";
import { tealDuct, tealParameters } from "./teal.js";

function clashes(parameters: FrameParameters): readonly Finding[] {
  return checkAssembly(deriveFrame(parameters));
}

describe("frames that assemble", () => {
  it.each(["75", "110", "160"])("teal in %s mm pipe has nothing in anything's way", (size) => {
    expect(clashes(tealParameters(size))).toEqual([]);
  });

  it.each([
    ["75", {}],
    ["90", { floats: [] }],
  ] as const)("a frame with every template in %s mm pipe has nothing in anything's way", (size, change) => {
    const frame = deriveFrame(richParameters(size, change));
    expect(checkFrame(frame).filter((finding) => finding.severity === "error")).toEqual([]);
    expect(frame.plates.filter((plate) => plate.made === "cut").map((plate) => plate.template)).toEqual(
      expect.arrayContaining(["bulkhead", "skid", "handle", "carrier-front"]),
    );
  });
});

describe("frames of sheets that were measured", () => {
  const rich = richParameters("75");

  // Of ten millimetres: more than DIN ISO 11833-1 allows either way, and within.
  it.each([-0.6, -0.38, -0.13, 0.2, 0.6])("%d mm off nominal fit together", (off) => {
    const measured = <S extends { thickness: number }>(sheet: S): S & { measured: number } => ({
      ...sheet,
      measured: sheet.thickness + off,
    });
    const sheets = { ...rich.sheets, structure: measured(rich.sheets.structure) };
    const frame = deriveFrame({ ...rich, sheets });
    expect(frame.findings.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(checkAssembly(frame)).toEqual([]);
    expect(frame.plates.find(({ id }) => id === "deck")?.sheet.measured).toBe(
      rich.sheets.structure.thickness + off,
    );
  });
});

describe("bulkheads", () => {
  it("have no rounded corner where a tab of their ends stands", () => {
    const frame = deriveFrame({ ...tealParameters("75"), bulkheads: [{ id: "low", x: 20, height: 40 }] });
    const low = frame.plates.find(({ template }) => template === "bulkhead");
    const { region } = low ?? { region: { outer: [], openings: [] } };
    // Tabs of 30 mm in the middle of 40: corners may be 5 mm round. A crack between tab and corner would be an inside corner.
    const half = Math.max(...region.outer.map(({ x }) => x));
    const shoulders = region.outer.filter(({ y, x }) => y > 34 && y < 36 && Math.abs(x) > half - 12);
    expect(shoulders.length).toBeGreaterThan(0);
    expect(
      checkFrame(frame).filter(({ id, place }) => /inside-corner|notch/.test(id) && place === low?.id),
    ).toEqual([]);
  });
});

describe("plates of sheets that were measured", () => {
  it("are told alike as before: names and counts do not change", () => {
    const rich = richParameters("75");
    const measured = <S extends { thickness: number }>(sheet: S): S & { measured: number } => ({
      ...sheet,
      measured: sheet.thickness + 0.1,
    });
    const { structure, carrier, float } = rich.sheets;
    const sheets = {
      structure: measured(structure),
      carrier: measured(carrier),
      ...(float === undefined ? {} : { float: measured(float) }),
    };
    const counts = (parameters: FrameParameters): (string | number)[][] =>
      deriveFrame(parameters)
        .plates.filter(({ made }) => made === "cut")
        .map(({ id, count }) => [id, count]);
    expect(counts({ ...rich, sheets })).toEqual(counts(rich));
  });
});

describe("frames that do not", () => {
  const table: readonly [string, Partial<FrameParameters>, string, RegExp][] = [
    [
      "a bulkhead through a heave duct",
      { bulkheads: [{ id: "mid", x: 60, height: 80 }] },
      "fit.pipe-through-plate",
      /heave and bulkhead/,
    ],
    [
      "two bulkheads in one place",
      {
        bulkheads: [
          { id: "a", x: 300, height: 60 },
          { id: "b", x: 305, height: 60 },
        ],
      },
      "fit.plates-meet",
      /bulkhead/,
    ],
    [
      "a bottle strapped where a pipe lies",
      { straps: [{ id: "bottle", at: { x: -95, y: 110 }, diameter: 60, along: "x", count: 2, spacing: 60 }] },
      "fit.strapped-in-the-way",
      /straps\.bottle and (port|starboard)/,
    ],
    [
      "two bottles in one place",
      {
        straps: [
          { id: "one", at: { x: 100, y: -110 }, diameter: 50, along: "x", count: 2, spacing: 60 },
          { id: "two", at: { x: 150, y: -80 }, diameter: 50, along: "y", count: 2, spacing: 60 },
        ],
      },
      "fit.strapped-in-the-way",
      /straps\.one and straps\.two/,
    ],
    [
      "a handle through a float",
      { handles: [{ id: "low", x: -190, z: 100, width: 70 }] },
      "fit.plates-meet",
      /handle and float|float.* and handle|handle/,
    ],
  ];

  it.each(table)("%s", (_, change, id, place) => {
    const found = clashes(richParameters("75", change)).filter((finding) => finding.id === id);
    expect(found.length).toBeGreaterThan(0);
    expect(
      found.some((finding) => place.test(finding.place)),
      JSON.stringify(found),
    ).toBe(true);
  });

  it("sees a tab whose slot is missing", () => {
    const frame = deriveFrame(tealParameters());
    const plates = frame.plates.map((plate) =>
      plate.id === "cheek"
        ? { ...plate, region: { ...plate.region, openings: plate.region.openings.slice(1) } }
        : plate,
    );
    expect(checkAssembly({ ...frame, plates }).map((finding) => finding.id)).toContain("fit.plates-meet");
  });

  it("sees a rod hole that is missing", () => {
    const frame = deriveFrame(tealParameters());
    const plates = frame.plates.map((plate) => {
      if (plate.id !== "cheek") return plate;
      const hole = plate.features.find((feature) => feature.kind === "rod-hole")?.contour;
      return {
        ...plate,
        region: { ...plate.region, openings: plate.region.openings.filter((_, index) => index !== hole) },
      };
    });
    expect(checkAssembly({ ...frame, plates }).map((finding) => finding.id)).toContain(
      "fit.rod-through-plate",
    );
  });

  it("sees a deck that sits a millimetre too high for its slots", () => {
    const frame = deriveFrame(tealParameters());
    const plates = frame.plates.map((plate) =>
      plate.id === "deck"
        ? { ...plate, seats: plate.seats.map((seat) => ({ ...seat, origin: [0, 0, -9] as const })) }
        : plate,
    );
    expect(checkAssembly({ ...frame, plates }).map((finding) => finding.id)).toContain("fit.plates-meet");
  });

  it("sees the rod of a float that runs through a duct beside it", () => {
    const teal = tealParameters();
    const float = {
      id: "high",
      from: { x: -130, y: 90 },
      to: { x: -40, y: 130 },
      bottom: 100,
      layers: 1,
      rods: [{ x: -75, y: 110 }],
    };
    const sheets = { ...teal.sheets, float: { material: "XPS", thickness: 40 } };
    const found = checkAssembly(deriveFrame({ ...teal, sheets, floats: [float] }));
    const clashes = found.filter(({ id }) => id === "fit.rod-in-the-way");
    // Through the middle of the pipe: half of 75.15 mm and half of the rod's 6 mm; and between the rods of the run.
    expect(clashes.map(({ place }) => place)).toContain("floats.high.rod-1 and port");
    expect(clashes[0]?.message).toContain("runs 40.58 mm into the pipe");
    const aside = { ...float, rods: [{ x: -75, y: 110 + 43 }] };
    const clear = checkAssembly(deriveFrame({ ...teal, sheets, floats: [aside] }));
    expect(clear.filter(({ place }) => place.includes("and port"))).toEqual([]);
  });

  it("sees the short rods of a sway duct run into a heave duct beside it", () => {
    const teal = tealParameters();
    const at = (x: number) => ({
      ...teal,
      deck: { ...teal.deck, length: 500 },
      ducts: [
        tealDuct("port", "surge", "75", { x: -150, y: 110 }),
        tealDuct("side", "sway", "75", { x: 0, y: 0 }),
        tealDuct("up", "heave", "75", { x, y: 0 }),
      ],
    });
    const clashes = (x: number) =>
      checkAssembly(deriveFrame(at(x))).filter(({ id }) => id === "fit.rod-in-the-way");
    expect(clashes(80).map(({ place }) => place)).toEqual([
      "side.rods.1.lower and up",
      "side.rods.1.upper and up",
    ]);
    expect(clashes(90)).toEqual([]);
  });
});
