import { circle, clockwise, locateInRegion, type Path, type Region, rectangle } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { nestingLevels, shortTour } from "../../packages/cli/src/output/cut-order.js";
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

describe("the cutting tour", () => {
  const points = Array.from({ length: 60 }, (_, index) => ({
    x: (index * 137) % 600,
    y: (index * 211) % 400,
  }));
  const contours = points.map(({ x, y }) => rectangle(x, y, 3, 3));
  const length = (order: typeof contours): number =>
    order.reduce((sum, contour, index) => {
      const from = index === 0 ? { x: 0, y: 0 } : (order[index - 1]?.[0] ?? { x: 0, y: 0 });
      return sum + Math.hypot((contour[0]?.x ?? 0) - from.x, (contour[0]?.y ?? 0) - from.y);
    }, 0);
  it("visits every contour once and is far shorter than the order given", () => {
    const tour = shortTour(contours, { x: 0, y: 0 });
    expect(new Set(tour)).toEqual(new Set(contours));
    expect(tour).toHaveLength(contours.length);
    expect(length(tour)).toBeLessThan(length(contours) / 4);
  });
  it("keeps an empty list empty", () => {
    expect(shortTour([], { x: 0, y: 0 })).toEqual([]);
  });
  it("puts what lies in openings first", () => {
    const host: Region = {
      outer: rectangle(0, 0, 100, 100),
      openings: [clockwise(rectangle(10, 10, 60, 60))],
    };
    const guest: Region = {
      outer: rectangle(20, 20, 30, 30),
      openings: [clockwise(rectangle(25, 25, 20, 20))],
    };
    const inner: Region = { outer: rectangle(30, 30, 5, 5), openings: [] };
    const apart: Region = { outer: rectangle(200, 0, 5, 5), openings: [] };
    expect(nestingLevels([host, inner, apart, guest])).toEqual([[1], [3], [0, 2]]);
  });
});
