import { type Box, bounds, type Contour, circle, clockwise, polygon, rectangle } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import {
  type DrawingOptions,
  plateDrawing,
  plateFileName,
  sheetDrawing,
  sheetFileName,
} from "../../packages/cli/src/output/index.js";
import { deck, drawn, nominal, plate, ring, stock } from "./dxf-samples.js";

const material = { material: "PE-HD", thickness: 10 };
const options = (kerf: number): DrawingOptions => ({
  size: { state: "compensated", kerf },
  marks: false,
  stockOutline: false,
});

/** Sizes of the boxes of a plate's contours as written, openings first. */
function writtenSizes(region: { outer: Contour; openings: Contour[] }, kerf: number): number[][] {
  const drawing = drawn(plateDrawing(plate("p", region), 1, options(kerf)));
  return drawing.entities.map((entity) => {
    const box: Box = bounds(entity.kind === "contour" ? entity.contour : entity.path.vertices);
    return [box.maxX - box.minX, box.maxY - box.minY];
  });
}

/** The worked example that public guides of laser shops print: kerf 0.2, a piece and an opening of 2.0 x 4.0. */
describe("compensation for a kerf of 0.2", () => {
  it("cuts a 2.0 x 4.0 piece along 2.2 x 4.2 and a 2.0 x 4.0 opening along 1.8 x 3.8", () => {
    const piece = writtenSizes({ outer: rectangle(0, 0, 2, 4), openings: [] }, 0.2);
    expect(piece[0]?.[0]).toBeCloseTo(2.2, 9);
    expect(piece[0]?.[1]).toBeCloseTo(4.2, 9);
    const opening = clockwise(rectangle(5, 5, 2, 4));
    const sizes = writtenSizes({ outer: rectangle(0, 0, 20, 20), openings: [opening] }, 0.2);
    expect(sizes[0]?.[0]).toBeCloseTo(1.8, 9);
    expect(sizes[0]?.[1]).toBeCloseTo(3.8, 9);
  });
  it("makes a 40 mm square and a 40 mm hole fit: 40.2 and 39.8", () => {
    const square = writtenSizes({ outer: rectangle(0, 0, 40, 40), openings: [] }, 0.2);
    expect(square[0]?.[0]).toBeCloseTo(40.2, 9);
    const hole = clockwise(circle({ x: 50, y: 50 }, 20));
    const sizes = writtenSizes({ outer: rectangle(0, 0, 100, 100), openings: [hole] }, 0.2);
    expect(sizes[0]?.[0]).toBeCloseTo(39.8, 9);
  });
});

describe("what cannot be compensated", () => {
  const slit = clockwise(
    polygon([
      { x: 10, y: 10 },
      { x: 30, y: 10 },
      { x: 30, y: 12 },
      { x: 10, y: 12 },
    ]),
  );
  const narrow = plate("narrow", { outer: rectangle(0, 0, 60, 40), openings: [slit] });
  it("is an error that names the plate, the place and the kerf", () => {
    const result = plateDrawing(narrow, 1, options(3.175));
    expect(result.ok).toBe(false);
    expect(result.findings[0]).toMatchObject({
      id: "files.compensation",
      severity: "error",
      place: "narrow",
    });
    expect(result.findings[0]?.message).toMatch(/opening 0 .*x \d+\.\d+, y \d+\.\d+.*3\.175/);
  });
  it("fails the sheet too", () => {
    const sheet = {
      stock: stock.id,
      times: 1,
      placements: [{ part: "narrow", x: 50, y: 50, rotation: 0, mirrored: false }],
    };
    const input = { sheet, number: 1, stock, material, plates: new Map([["narrow", narrow]]) };
    expect(sheetDrawing(input, options(3.175)).ok).toBe(false);
    expect(sheetDrawing(input, nominal).ok).toBe(true);
  });
  it("but no plate that rounding puts over the sheet's edge", () => {
    const { minX } = bounds(ring.region.outer);
    for (const [over, ok] of [
      [1e-12, true],
      [1e-3, false],
    ] as const) {
      const placements = [{ part: "ring", x: -minX - over, y: 60, rotation: 0, mirrored: false }];
      const sheet = { stock: stock.id, times: 1, placements };
      const input = { sheet, number: 1, stock, material, plates: new Map([["ring", ring]]) };
      expect(sheetDrawing(input, nominal).ok).toBe(ok);
    }
  });
  it("a plate whose cut line would leave the sheet at the origin", () => {
    const sheet = {
      stock: stock.id,
      times: 1,
      placements: [{ part: "ring", x: 31, y: 60, rotation: 0, mirrored: false }],
    };
    const input = { sheet, number: 1, stock, material, plates: new Map([["ring", ring]]) };
    const result = sheetDrawing(input, options(3.175));
    expect(result.ok).toBe(false);
    expect(result.findings[0]?.id).toBe("files.outside-stock");
  });
});

describe("the state is said", () => {
  it("in the file's name", () => {
    expect(sheetFileName(material, 1, 3, { state: "nominal" })).toBe("pe-hd-10mm-01-x3");
    expect(sheetFileName(material, 12, 1, { state: "compensated", kerf: 3.175 })).toBe(
      "pe-hd-10mm-12-x1-compensated-3.175mm",
    );
    expect(plateFileName(deck, 2, { state: "nominal" })).toBe("deck-pe-hd-10mm-x2");
  });
  it("in the drawing's note", () => {
    expect(drawn(plateDrawing(deck, 2, options(3.175))).note).toContain(
      "compensated for kerf 3.175 mm, cut on the line",
    );
    expect(drawn(plateDrawing(deck, 2, nominal)).note).toContain("nominal size, not compensated");
  });
  it("never for a printed template, which is cut by hand on its line", () => {
    const wrap = plate("wrap", { outer: rectangle(0, 0, 60, 40), openings: [] }, { made: "printed" });
    expect(drawn(plateDrawing(wrap, 1, options(3.175))).note).toContain("nominal size, not compensated");
    expect(plateFileName(wrap, 1, { state: "compensated", kerf: 3.175 })).toBe("wrap-pe-hd-10mm-x1");
  });
});

describe("file names", () => {
  it.each([
    ["PMMA (cast)", "pmma-cast"],
    ["Größe 3/4", "gro-e-3-4"],
    ["../etc", "etc"],
    ["", "unnamed"],
    ["...", "unnamed"],
  ])("%j becomes %j", (name, word) => {
    expect(sheetFileName({ material: name, thickness: 3 }, 1, 1, { state: "nominal" })).toBe(
      `${word}-3mm-01-x1`,
    );
  });
  it("stay short", () => {
    const long = plateFileName(plate("x".repeat(300), ring.region), 4, { state: "nominal" });
    expect(long.length).toBeLessThanOrEqual(100);
    expect(long).toMatch(/-pe-hd-10mm-x4$/);
  });
});
