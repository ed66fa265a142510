import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { circle, clockwise, flatten, obround, type Plate, placeContour, rectangle } from "@keelcut/geometry";
import { afterAll, describe, expect, it } from "vitest";
import { featureGroups } from "../../packages/cli/src/output/feature-groups.js";
import { drawingPage } from "../../packages/cli/src/output/pdf/dimensioned/drawing-scale.js";
import { openingTable, radiiText } from "../../packages/cli/src/output/pdf/dimensioned/opening-table.js";
import {
  type Stroke,
  TAG_HEIGHT,
  tagPlaces,
} from "../../packages/cli/src/output/pdf/dimensioned/tag-places.js";
import { writeDimensioned } from "../../packages/cli/src/output/pdf/index.js";
import { outside, present } from "./dxf-outside.js";
import { deck, plate } from "./dxf-samples.js";

const hasPoppler = present("pdftoppm (poppler-utils)", "pdftoppm", ["-v"]);
const folder = mkdtempSync(join(tmpdir(), "keelcut-dimensioned-"));
afterAll(() => rmSync(folder, { recursive: true }));

const facts = (drawn: Plate) => ({ plate: drawn, frame: "Teal", revision: "B", quantity: 7, marks: [] });

/** An outline of 120 x 80 at (-20, 10): two holes, a slot on the slant, a rectangle. */
const bar: Plate = plate("bar", {
  outer: rectangle(-20, 10, 120, 80),
  openings: [
    clockwise(circle({ x: 80, y: 30 }, 3.3)),
    clockwise(circle({ x: 0, y: 30 }, 3.3)),
    clockwise(obround({ x: 10, y: 60 }, { x: 40, y: 80 }, 5)),
    clockwise(rectangle(60, 60, 24, 11.5)),
  ],
});

describe("the table of openings", () => {
  it("counts from the outline's lower-left corner and groups what is alike", () => {
    const rows = openingTable(bar).map(({ tag, middle, size }) => [
      tag,
      Math.round(middle.x * 1000) / 1000,
      Math.round(middle.y * 1000) / 1000,
      size,
    ]);
    const slant = (Math.atan2(20, 30) * 180) / Math.PI;
    const long = Math.hypot(30, 20) + 5;
    expect(rows).toEqual([
      ["A1", 20, 20, "dia 6.6"],
      ["A2", 100, 20, "dia 6.6"],
      ["B1", 45, 60, `slot ${Number(long.toFixed(3))} x 5 at ${slant.toFixed(2)} deg`],
      ["C1", 92, 55.75, "24 x 11.5"],
    ]);
  });
  it("gives a turned rectangle's length in the direction it says, whichever side comes first", () => {
    const turned = [0, 1].map((first) => {
      const corners = rectangle(-20, -5, 40, 10);
      const from = [...corners.slice(first), ...corners.slice(0, first)];
      return placeContour(from, { x: 40, y: 50, rotation: 30, mirrored: false });
    });
    for (const opening of turned.flatMap((contour) => [contour, clockwise(contour)])) {
      const [row] = openingTable(plate("turned", { outer: rectangle(0, 0, 100, 100), openings: [opening] }));
      expect(row?.size).toBe("40 x 10 at 30 deg");
    }
  });
  it("calls openings by the letters of the page", () => {
    const letters = featureGroups(deck).flatMap(({ letter, openings }) => openings.map(() => letter));
    expect(openingTable(deck).map(({ tag }) => tag.replace(/[0-9]+$/, ""))).toEqual(letters);
    expect(letters[0]).toBe("A");
  });
  it("lists every opening once, and the radii of the outline", () => {
    const rows = openingTable(deck);
    expect(rows).toHaveLength(deck.region.openings.length);
    expect(new Set(rows.map(({ tag }) => tag)).size).toBe(rows.length);
    expect(radiiText(deck.region.outer).split(", ").sort()).toEqual(["R12 x 3", "R40", "R6 x 2"]);
    expect(radiiText(circle({ x: 0, y: 0 }, 30))).toBe("circle, dia 60");
    expect(radiiText(bar.region.outer)).toBe("");
  });
});

describe("tags beside openings", () => {
  const half = { x: 2, y: 2 };
  const length = 2.4;
  const tags = [
    { middle: { x: 0, y: 0 }, half, length },
    { middle: { x: 0, y: 6.5 }, half, length },
  ];
  const signs = (drawn: readonly Stroke[]): number[][] =>
    tagPlaces(tags, drawn).map(({ x, y }, index) => {
      const { middle } = tags[index] ?? { middle: { x: 0, y: 0 } };
      return [Math.sign(x + length / 2 - middle.x), Math.sign(y + TAG_HEIGHT / 2 - middle.y)];
    });
  const above: Stroke = [
    { x: -9, y: 9.5 },
    { x: 9, y: 9.5 },
  ];

  it("lie to the upper right where nothing is", () => {
    expect(signs([])).toEqual([
      [1, 1],
      [1, 1],
    ]);
  });

  it("keep clear of lines, crosses and each other", () => {
    // A line over the second leaves it the lower corners; the right one is taken by the first's tag.
    expect(signs([above])).toEqual([
      [1, 1],
      [-1, -1],
    ]);
  });

  it("step outwards where all around is drawn on, and are never left out", () => {
    const rows = Array.from(
      { length: 40 },
      (_, row): Stroke => [
        { x: -50, y: row / 2 - 5 },
        { x: 50, y: row / 2 - 5 },
      ],
    );
    expect(tagPlaces(tags, rows)).toHaveLength(2);
    const around = flatten(circle({ x: 0, y: 0 }, 4), 0.01, "on");
    const ring = around.map((point, index): Stroke => [around.at(index - 1) ?? point, point]);
    const [place] = tagPlaces(tags.slice(0, 1), ring);
    expect(Math.hypot(place?.x ?? 0, place?.y ?? 0)).toBeGreaterThan(4);
  });
});

describe("the page of a drawing", () => {
  it.each([
    [28, 20, "5:1", 297],
    [66.5, 66.5, "2:1", 297],
    [120, 80, "1:1", 297],
    [290, 180, "1:2", 297],
    [420, 346, "1:2", 420],
    [1000, 500, "1:5", 420],
    [2000, 1000, "1:10", 420],
  ])("for a plate of %d x %d is drawn %s", (width, height, scaleText, pageWidth) => {
    const page = drawingPage(width, height);
    expect([page.scaleText, page.width]).toEqual([scaleText, pageWidth]);
    expect(width * page.scale).toBeLessThan(page.room.width);
    expect(height * page.scale).toBeLessThan(page.room.height);
  });
});

describe("a dimensioned drawing", () => {
  it("is the same bytes every time", async () => {
    const [one, two] = [await writeDimensioned(facts(deck)), await writeDimensioned(facts(deck))];
    expect(Buffer.compare(Buffer.from(one), Buffer.from(two))).toBe(0);
  });
  it("is drawn whatever the names hold", async () => {
    const odd = await writeDimensioned({ ...facts({ ...bar, name: "Ruder 鯨 Ω ü" }), frame: "Ω" });
    expect(odd.length).toBeGreaterThan(1000);
  });
});

describe.runIf(hasPoppler)("read by poppler", () => {
  it("says what the plate is and where each opening lies", async () => {
    const path = join(folder, "bar.pdf");
    writeFileSync(path, await writeDimensioned(facts(bar)));
    const text = outside("pdftotext", ["-layout", path, "-"]);
    for (const part of [
      "Teal, revision B",
      "PE-HD 10 mm",
      "1 in a kit, 7 in all",
      "1:1 on A4",
      "120",
      "80",
    ]) {
      expect(text).toContain(part);
    }
    expect(text).toMatch(/A1\s+20\s+20\s+dia 6\.6/);
    expect(text).toMatch(/A2\s+100\s+20\s+dia 6\.6/);
  });
  it("shows the plate at the scale it states", async () => {
    const path = join(folder, "large.pdf");
    const large = plate("large", { outer: rectangle(0, 0, 290, 180), openings: [] });
    writeFileSync(path, await writeDimensioned(facts(large)));
    outside("pdftoppm", ["-r", "254", "-gray", "-singlefile", path, join(folder, "large")]);
    const data = readFileSync(join(folder, "large.pgm"));
    const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(data.toString("latin1", 0, 60));
    const [width, height] = [Number(head?.[1]), Number(head?.[2])];
    expect(Math.abs(width - 2970) + Math.abs(height - 2100)).toBeLessThanOrEqual(2);
    const start = head?.[0].length ?? 0;
    const dark = (x: number, y: number): boolean => (data[start + y * width + x] ?? 255) < 128;
    // The outline's two long edges are the only unbroken runs as long as half of 290 mm with thick lines.
    const rows = Array.from({ length: height }, (_, y) => {
      let run = 0;
      let best = 0;
      for (let x = 0; x < 1800; x++) {
        run = dark(x, y) ? run + 1 : 0;
        best = Math.max(best, run);
      }
      return best;
    });
    const long = rows.flatMap((run, y) => (Math.abs(run - 1453) <= 3 ? [y] : []));
    // The outline is 3.5 pixels thick, the dimension line below it 1.5.
    const edges = long.filter((y) => long.includes(y - 1) && long.includes(y + 1));
    expect(edges.length).toBeGreaterThanOrEqual(2);
    expect(Math.abs((Math.max(...edges) - Math.min(...edges)) / 10 - 90)).toBeLessThanOrEqual(0.2);
  });
  it("goes on on further pages when a plate has very many openings", async () => {
    const many = plate("many", {
      outer: rectangle(0, 0, 200, 150),
      openings: Array.from({ length: 150 }, (_, i) =>
        clockwise(circle({ x: 10 + (i % 15) * 12.8, y: 10 + Math.floor(i / 15) * 14 }, 2)),
      ),
    });
    const path = join(folder, "many.pdf");
    writeFileSync(path, await writeDimensioned(facts(many)));
    const text = outside("pdftotext", ["-layout", path, "-"]);
    expect(text.split("\f").length - 1).toBeGreaterThan(1);
    for (let i = 1; i <= 150; i++) expect(text).toMatch(new RegExp(`\\bA${i}\\b`));
  });
});
