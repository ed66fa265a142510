import { describe, expect, it } from "vitest";
import { compileInstance, type Instance } from "../../../packages/nesting/src/search/instance.js";
import { type PackedSheets, packSheets } from "../../../packages/nesting/src/search/pack-sheets.js";
import { checkLayout } from "../../benchmarks/layout-check.js";
import { cornersOf } from "../strip/check-strip.js";
import { jigsaw } from "../strip/small-strips.js";

const block = (width: number, height: number) => ({
  outer: Float64Array.of(0, 0, width, 0, width, height, 0, height),
  openings: [],
});

/** Copies of the jigsaw's pieces. */
function pieces(copies: number): Instance {
  return compileInstance(
    jigsaw.items.map(({ polygon }) => ({
      polygon,
      demand: copies,
      turns: [{ rotation: 0, mirrored: false }],
    })),
    [],
  );
}

function placesOf({ places }: PackedSheets): NonNullable<PackedSheets["places"]> {
  if (places === undefined) throw new Error("no way was found");
  return places;
}

describe("laying everything on a number of equal sheets", () => {
  it("takes as many sheets as it is given and no more", () => {
    const blocks = compileInstance(
      [{ polygon: block(6, 4), demand: 5, turns: [{ rotation: 0, mirrored: false }] }],
      [],
    );
    const sheet = { length: 11, width: 9 };
    expect(packSheets(blocks, sheet, 2, 2000, 1).places).toBeUndefined();
    const perSheet = [0, 1, 2].map(
      (number) =>
        placesOf(packSheets(blocks, sheet, 3, 2000, 1)).filter(({ sheet: own }) => own === number).length,
    );
    expect(perSheet).toEqual([2, 2, 1]);
  });

  it("separates what bottom-left finds no room for, across sheets", () => {
    const instance = pieces(2);
    const sheet = { length: 20.8, width: 20.8 };
    const packed = packSheets(instance, sheet, 2, 60_000, 2);
    // Bottom-left alone does not do it: placement searches were needed.
    expect(packed.steps).toBeGreaterThan(0);
    for (const number of [0, 1]) {
      const items = placesOf(packed).flatMap((place, item) => {
        if (place.sheet !== number) return [];
        const kind = instance.kindOfItem[item] as number;
        const polygon = cornersOf((jigsaw.items[kind] as (typeof jigsaw.items)[number]).polygon);
        const x = place.x - (instance.centreX[place.shape] as number);
        const y = place.y - (instance.centreY[place.shape] as number);
        return [{ polygon, x, y, rotation: 0, mirrored: false }];
      });
      const check = checkLayout(items, sheet.width, sheet.length);
      expect(check.worstOverlap).toBeLessThan(1e-6);
      expect(check.worstOverhang).toBeLessThan(1e-9);
    }
    const sheets = placesOf(packed).map((place) => place.sheet);
    expect(sheets.length).toBe(14);
    expect(new Set(sheets).size).toBe(2);
  });

  it("gives up when the steps are spent", () => {
    const packed = packSheets(pieces(3), { length: 20, width: 20 }, 2, 500, 1);
    expect(packed.places).toBeUndefined();
    expect(packed.steps).toBeGreaterThan(500);
    expect(packed.steps).toBeLessThan(600);
  });
});
