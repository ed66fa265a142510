import { checkFrame, deriveFrame, type Finding, type FrameParameters } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { tealDuct, tealParameters } from "../frame/teal.js";

const teal = tealParameters("75");

function warnings(change: Partial<FrameParameters>, id: string): readonly Finding[] {
  return checkFrame(deriveFrame({ ...teal, ...change })).filter(
    (finding) => finding.id === id && finding.severity === "warning",
  );
}

function withStructure(sheet: Partial<FrameParameters["sheets"]["structure"]>): Partial<FrameParameters> {
  return { sheets: { ...teal.sheets, structure: { ...teal.sheets.structure, ...sheet } } };
}

function withPipe(pipe: Partial<FrameParameters["ducts"][number]["pipe"]>): Partial<FrameParameters> {
  const duct = tealDuct("port", "surge", "75", { x: -90, y: 0 });
  return { ducts: [{ ...duct, pipe: { ...duct.pipe, ...pipe } }] };
}

describe("a measured sheet", () => {
  // PE-HD sheet of 10 mm may be 0.38 mm off: ISO 14632, 0.08 mm + 0.03 t.
  it.each([
    [9.62, 0],
    [10.38, 0],
    [9.6, 1],
    [10.4, 1],
    [11, 1],
  ])("of %d mm instead of 10 gives %d warnings", (measured, count) => {
    expect(warnings(withStructure({ measured }), "fit.measured-thickness")).toHaveLength(count);
  });

  it("is warned of when plates of one stock have two values", () => {
    const structure = { ...teal.sheets.structure, measured: 9.8 };
    const carrier = { ...structure, measured: 10.2 };
    expect(warnings({ sheets: { structure, carrier } }, "fit.measured-twice")).toMatchObject([
      { message: expect.stringContaining("9.8 mm for some plates and as 10.2 mm for others") },
    ]);
    expect(warnings({ sheets: { structure, carrier: structure } }, "fit.measured-twice")).toEqual([]);
  });

  it("is asked for where its standard allows much", () => {
    const acrylic = { material: "PMMA cast", thickness: 8 };
    expect(warnings(withStructure(acrylic), "fit.tab-thickness")).toMatchObject([
      { message: expect.stringContaining("measure it and give sheets.structure.measured") },
    ]);
    expect(warnings(withStructure({ ...acrylic, measured: 7.6 }), "fit.tab-thickness")).toEqual([]);
  });
});

describe("a measured pipe", () => {
  // EN 1329-1, 75: 75.0 to 75.3 mm and 1.8 mm out of round, wall 3.0 to 3.5; all from memory of the standard.
  it.each([
    [{ outside: 74.2 }, 0],
    [{ outside: 76.1 }, 0],
    [{ outside: 77 }, 1],
    [{ outside: 90 }, 1],
  ])("%o across gives %d warnings", (pipe, count) => {
    expect(warnings(withPipe(pipe), "fit.measured-pipe")).toHaveLength(count);
  });

  it.each([
    [{ wall: 3.4 }, 0],
    [{ wall: 2.5 }, 1],
  ])("%o gives %d warnings", (pipe, count) => {
    expect(warnings(withPipe(pipe), "fit.measured-wall")).toHaveLength(count);
  });

  it("of no standard is asked for its tolerances, and cut for the worst of them", () => {
    const duct = tealDuct("port", "surge", "75", { x: -90, y: 0 });
    const bare = { outside: 80, wall: 3 };
    const tube = (pipe: FrameParameters["ducts"][number]["pipe"]) => ({ ducts: [{ ...duct, pipe }] });
    expect(warnings(tube(bare), "fit.pipe-exact")).toHaveLength(1);
    expect(warnings(tube({ ...bare, ovality: 0 }), "fit.pipe-exact")).toEqual([]);
    const bores = (pipe: FrameParameters["ducts"][number]["pipe"]): (number | undefined)[] => {
      const { dimensions } = deriveFrame({ ...teal, ...tube(pipe) });
      return ["port.pipe.boreMin", "port.pipe.boreMax"].map(
        (name) => dimensions.find((dimension) => dimension.name === name)?.value,
      );
    };
    expect(bores(bare)).toEqual([74, 74]);
    // 80 - 0.8 less twice 3.3, and half of 1 mm out of round; the other way round for the largest.
    const [least, most] = bores({ ...bare, outsideTolerance: 0.8, wallTolerance: 0.3, ovality: 1 });
    expect(least).toBeCloseTo(72.1, 9);
    expect(most).toBeCloseTo(75.9, 9);
  });

  // PN10 of 110 mm: 5.3 mm by DIN 8062, 4.2 by EN ISO 1452-2 (from memory of both).
  it.each([
    [{ standard: "EN ISO 1452-2", size: "110", series: "PN10" }, /5\.3 mm by DIN 8062/],
    [{ standard: "DIN 8062", size: "110", series: "PN10" }, /4\.2 mm by EN ISO 1452-2/],
  ])("%o is sold with another wall too", (pipe, message) => {
    expect(warnings(withPipe(pipe), "fit.pipe-series")[0]?.message).toMatch(message);
    expect(warnings(withPipe({ ...pipe, wall: 4.3 }), "fit.pipe-series")).toEqual([]);
  });

  it("is told the series whose wall it has", () => {
    const thick = withPipe({ standard: "EN ISO 1452-2", size: "110", series: "PN10", wall: 6.7 });
    expect(warnings(thick, "fit.measured-wall")[0]?.message).toMatch(
      /EN ISO 1452-2 PN16.*: give pipe\.series/,
    );
    // EN 1329-1 is of PVC-U: a wall that only a pipe of PP has is no name for it.
    expect(warnings(withPipe({ wall: 2 }), "fit.measured-wall")[0]?.message).not.toMatch(/EN 1451-1/);
    const german = withPipe({ standard: "EN ISO 1452-2", size: "110", series: "PN10", wall: 5.5 });
    expect(warnings(german, "fit.measured-wall")[0]?.message).toMatch(
      /DIN 8062 PN10.*: give pipe\.standard and pipe\.series/,
    );
  });
});
