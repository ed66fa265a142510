import { circle, clockwise, locateInRegion, type Path, type Region, rectangle } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { plateDrawing } from "../../packages/cli/src/output/index.js";
import { plateLabel } from "../../packages/cli/src/output/part-label.js";
import { missingLetters, strokeText, strokeTextWidth } from "../../packages/cli/src/output/strokes.js";
import { deck, drawn, nominal, plate, ring } from "./dxf-samples.js";

const ascii = Array.from({ length: 95 }, (_, index) => String.fromCharCode(32 + index));

describe("single-stroke letters", () => {
  it("has every printable ASCII character, each different but I and l", () => {
    expect(missingLetters(ascii.join(""))).toEqual([]);
    const drawings = ascii.map((letter) => JSON.stringify(strokeText(letter, { x: 0, y: 0 }, 21).strokes));
    expect(drawings[ascii.indexOf("I")]).toBe(drawings[ascii.indexOf("l")]);
    expect(new Set(drawings).size).toBe(94);
  });
  it("has capitals as high as asked, on the base line", () => {
    for (const letter of "ABCDEFGHIKLMNOPRSTUVWXYZ0123456789") {
      const ys = strokeText(letter, { x: 3, y: 5 }, 7).strokes.flatMap(({ vertices }) =>
        vertices.map(({ y }) => y),
      );
      expect(Math.max(...ys)).toBeCloseTo(12, 9);
      expect(Math.min(...ys)).toBeCloseTo(5, 9);
    }
  });
  it("has no stroke of no length and no stroke twice", () => {
    for (const letter of ascii) {
      const pieces = strokeText(letter, { x: 0, y: 0 }, 21).strokes.flatMap(({ vertices }) =>
        vertices.slice(1).map((to, index) => {
          const from = vertices[index] ?? to;
          expect(Math.hypot(to.x - from.x, to.y - from.y)).toBeGreaterThan(0.9);
          return [`${from.x.toFixed(6)} ${from.y.toFixed(6)}`, `${to.x.toFixed(6)} ${to.y.toFixed(6)}`]
            .sort()
            .join();
        }),
      );
      expect(new Set(pieces).size, letter).toBe(pieces.length);
    }
  });
  it("turns and scales", () => {
    const [upright] = strokeText("L", { x: 0, y: 0 }, 21).strokes;
    const [turned] = strokeText("L", { x: 10, y: 0 }, 42, 90).strokes;
    upright?.vertices.forEach(({ x, y }, index) => {
      expect(turned?.vertices[index]?.x).toBeCloseTo(10 - 2 * y, 9);
      expect(turned?.vertices[index]?.y).toBeCloseTo(2 * x, 9);
    });
    expect(strokeTextWidth("deck", 10)).toBeCloseTo(strokeText("deck", { x: 0, y: 0 }, 10).width, 9);
  });
  it("takes accents off and refuses what it cannot draw", () => {
    expect(strokeText("é", { x: 0, y: 0 }, 5)).toEqual(strokeText("e", { x: 0, y: 0 }, 5));
    expect(missingLetters("a鯨b")).toEqual(["鯨"]);
    expect(() => strokeText("鯨", { x: 0, y: 0 }, 5)).toThrow(RangeError);
    expect(() => strokeText("a", { x: 0, y: 0 }, Number.NaN)).toThrow(RangeError);
  });
});

describe("labels", () => {
  const inside = (region: Region, paths: readonly Path[]): boolean =>
    paths.every(({ vertices }) => vertices.every((point) => locateInRegion(region, point) === "inside"));
  it.each([deck, ring])("of $id lie in the material", ({ id, region }) => {
    const label = plateLabel(region, [id], [], id);
    expect(label.paths.length).toBeGreaterThan(3);
    expect(inside(region, label.paths)).toBe(true);
    expect(label.findings).toEqual([]);
  });
  it("are left out and reported where they do not fit", () => {
    const thin: Region = {
      outer: circle({ x: 0, y: 0 }, 30),
      openings: [clockwise(circle({ x: 0, y: 0 }, 26))],
    };
    const label = plateLabel(thin, ["ring"], [], "ring");
    expect(label.paths).toEqual([]);
    expect(label.findings[0]).toMatchObject({ id: "files.mark-left-out", severity: "note", place: "ring" });
  });
  it("are left out and reported where letters are missing", () => {
    const result = plateDrawing(plate("p", deck.region), 1, { ...nominal, labels: () => ["鯨"] });
    expect(result.findings[0]?.message).toContain("鯨");
    expect(drawn(result).entities.some((entity) => entity.layer === "mark")).toBe(false);
  });
  it("keep clear of the plate's own marks", () => {
    const region: Region = { outer: rectangle(0, 0, 60, 14), openings: [] };
    const free = plateLabel(region, ["a"], [], "a").paths;
    const mark: Path = {
      closed: false,
      vertices: [
        { x: 25, y: 7, bulge: 0 },
        { x: 35, y: 7, bulge: 0 },
      ],
    };
    const shifted = plateLabel(region, ["a"], [mark], "a").paths;
    expect(shifted.length).toBe(free.length);
    const xs = shifted.flatMap(({ vertices }) => vertices.map(({ x }) => x));
    expect(Math.max(...xs) < 23 || Math.min(...xs) > 37).toBe(true);
  });
});
