import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { rectangle } from "@keelcut/geometry";
import { afterAll, describe, expect, it } from "vitest";
import { plateDrawing } from "../../packages/cli/src/output/index.js";
import { papers, tilingOf, writePdf } from "../../packages/cli/src/output/pdf/index.js";
import { present } from "./dxf-outside.js";
import { deck, drawn, nominal, plate, ring } from "./dxf-samples.js";
import { barLength, longestRun, page as pageOf } from "./pdf-pages.js";

const hasPoppler = present("pdftoppm (poppler-utils)", "pdftoppm", ["-v"]);
const folder = mkdtempSync(join(tmpdir(), "keelcut-pdf-"));
afterAll(() => rmSync(folder, { recursive: true }));

const small = drawn(
  plateDrawing(plate("strip", { outer: rectangle(0, 0, 150, 60), openings: [] }), 1, nominal),
);

describe("tiling", () => {
  it.each(Object.keys(papers) as (keyof typeof papers)[])(
    "covers the drawing on %s, each page overlapping the next",
    (paper) => {
      for (const [width, height] of [
        [100, 100],
        [180, 250],
        [181, 100],
        [300, 420],
        [1000, 500],
        [3000, 20],
      ] as const) {
        const {
          tiles,
          width: w,
          height: h,
          columns,
          rows,
          pageWidth,
          pageHeight,
        } = tilingOf(width, height, paper);
        expect(tiles).toHaveLength(columns * rows);
        expect(w).toBeLessThan(pageWidth);
        expect(h).toBeLessThan(pageHeight);
        const xs = tiles.map((tile) => tile.x);
        const ys = tiles.map((tile) => tile.y);
        expect(Math.min(...xs)).toBeLessThanOrEqual(1e-9);
        expect(Math.min(...ys)).toBeLessThanOrEqual(1e-9);
        expect(Math.max(...xs) + w).toBeGreaterThanOrEqual(width - 1e-9);
        expect(Math.max(...ys) + h).toBeGreaterThanOrEqual(height - 1e-9);
        const sorted = [...new Set(xs)].sort((a, b) => a - b);
        for (let i = 1; i < sorted.length; i++) {
          expect((sorted[i] ?? 0) - (sorted[i - 1] ?? 0)).toBeCloseTo(w - 10, 9);
        }
      }
    },
  );
  it("turns the paper when that saves pages", () => {
    expect(tilingOf(260, 150, "A4")).toMatchObject({ columns: 1, rows: 1, pageWidth: 297 });
    expect(tilingOf(150, 240, "A4")).toMatchObject({ columns: 1, rows: 1, pageWidth: 210 });
  });
});

describe("the text of a PDF", () => {
  it("is the same bytes every time, with the pages it should have", async () => {
    const one = await writePdf([small, drawn(plateDrawing(deck, 1, nominal))], "A4");
    const two = await writePdf([small, drawn(plateDrawing(deck, 1, nominal))], "A4");
    expect(Buffer.compare(Buffer.from(one), Buffer.from(two))).toBe(0);
    const expected = 1 + tilingOf(300, 180, "A4").tiles.length;
    expect(
      Buffer.from(one)
        .toString("latin1")
        .match(/\/Type \/Page\b/g),
    ).toHaveLength(expected);
  });
  it("refuses nothing and an empty drawing", () => {
    expect(() => writePdf([], "A4")).toThrow(RangeError);
    expect(() => writePdf([{ ...small, entities: [] }], "A4")).toThrow(RangeError);
  });
});

describe.runIf(hasPoppler)("drawn by pdftoppm", () => {
  it.each(Object.keys(papers) as (keyof typeof papers)[])(
    "on %s the check bar is 100 mm and the plate its size",
    async (paper) => {
      const path = join(folder, `${paper}.pdf`);
      writeFileSync(path, await writePdf([small], paper));
      const picture = pageOf(path, 1, folder);
      const { pageWidth, pageHeight } = tilingOf(150, 60, paper);
      expect(Math.abs(picture.width - pageWidth * 10)).toBeLessThanOrEqual(1);
      expect(Math.abs(picture.height - pageHeight * 10)).toBeLessThanOrEqual(1);
      expect(Math.abs(barLength(picture) - 100)).toBeLessThanOrEqual(0.1);
      const rows = Array.from({ length: picture.height }, (_, y) => longestRun(picture, y));
      // The bar lies in the foot, the plate above it.
      const edge = Math.max(...rows.slice(0, -300));
      expect(Math.abs(edge / 10 - 150)).toBeLessThanOrEqual(0.4);
      const edges = rows.flatMap((run, y) => (run > 1400 ? [y] : []));
      expect(Math.abs((Math.max(...edges) - Math.min(...edges)) / 10 - 60)).toBeLessThanOrEqual(0.4);
    },
  );
  it("shows the check bar on every page of a plate larger than the paper", async () => {
    const path = join(folder, "large.pdf");
    const large = drawn(plateDrawing(deck, 1, { ...nominal, stockOutline: false }));
    writeFileSync(path, await writePdf([large, drawn(plateDrawing(ring, 1, nominal))], "A4"));
    const pages = tilingOf(large.width, large.height, "A4").tiles.length + 1;
    expect(pages).toBeGreaterThan(2);
    for (let number = 1; number <= pages; number++) {
      const picture = pageOf(path, number, folder);
      expect(Math.abs(barLength(picture) - 100)).toBeLessThanOrEqual(0.1);
    }
  });
});
