import { circle, placeContour, polygon, type Region, rectangle, reversed } from "@keelcut/geometry";
import { type NestJob, nest } from "@keelcut/nesting";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { block, copies, job, packed, part, solid, stock } from "./jobs.js";

/** The L of the sheet less one quarter. */
const corner = polygon([
  { x: 0, y: 0 },
  { x: 400, y: 0 },
  { x: 400, y: 100 },
  { x: 100, y: 100 },
  { x: 100, y: 300 },
  { x: 0, y: 300 },
]);

describe("exact fits", () => {
  it.each([0, 3.7])(
    "fills a sheet with as many rectangles as it is made for, clearance %d",
    async (clearance) => {
      const [columns, rows, width, height] = [6, 4, 61.3, 43.7];
      const sheet = rectangle(
        0,
        0,
        columns * width + (columns - 1) * clearance + 20,
        rows * height + (rows - 1) * clearance + 20,
      );
      const tiles = job({
        clearance,
        edgeMargin: 10,
        parts: [part("tile", block(width, height), { demand: 25 })],
        stock: [stock("s", sheet, { available: 1 })],
      });
      expect(copies(await packed(tiles))).toBe(24);
    },
  );

  it("lets a margin smaller than half the clearance be one", async () => {
    const tiles = job({
      clearance: 8,
      edgeMargin: 1,
      parts: [part("tile", block(50, 50), { demand: 5 })],
      stock: [stock("s", rectangle(0, 0, 110, 110), { available: 1 })],
    });
    expect(copies(await packed(tiles))).toBe(4);
  });

  it("lays a disc in an opening it just fits, where the chords alone would refuse it", async () => {
    const ring: Region = {
      outer: rectangle(-60, -60, 120, 120),
      openings: [reversed(rectangle(-50, -50, 100, 100))],
    };
    const snug = job({
      clearance: 5,
      edgeMargin: 0,
      parts: [part("ring", ring), part("core", block(90, 90))],
      stock: [stock("s", rectangle(0, 0, 120, 120), { available: 1 })],
    });
    expect(copies(await packed(snug))).toBe(2);
    const tight = { ...snug, clearance: 5.001 };
    expect(copies(await packed(tight))).toBe(1);
  });

  it("lays a disc on a sheet that is just wide enough", async () => {
    const wheel = job({
      edgeMargin: 5,
      chordError: 0.5,
      clearance: 2,
      parts: [part("wheel", solid(circle({ x: 0, y: 0 }, 100)), { rotations: [0, 45] })],
      stock: [stock("s", rectangle(0, 0, 210.1, 210.1))],
    });
    expect(copies(await packed(wheel))).toBe(1);
  });

  it("lays a long bar at the one angle, between whole degrees, at which the sheet holds it", async () => {
    const bar = (degrees: number, slack: number): NestJob => {
      const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
      const sheet = rectangle(0, 0, 1000 * cos + 20 * sin + slack, 1000 * sin + 20 * cos + slack);
      return job({
        parts: [part("bar", block(1000, 20), { rotations: "any" })],
        stock: [stock("s", sheet, { available: 1 })],
      });
    };
    const drawn = fc.double({ min: 3, max: 87, noNaN: true });
    await fc.assert(
      fc.asyncProperty(drawn, async (degrees) => {
        expect(copies(await packed(bar(degrees, 0.02)))).toBe(1);
        expect(await nest(bar(degrees, -0.02))).toMatchObject({ unplaced: [{ reason: "too-large" }] });
      }),
      { numRuns: 20 },
    );
  });
});

describe("attitudes", () => {
  /** A square less the triangle between a side and its middle: every quarter turn has the same five corners. */
  const bitten = solid(
    polygon([
      { x: 0, y: 0 },
      { x: 10, y: 0 },
      { x: 10, y: 10 },
      { x: 0, y: 10 },
      { x: 5, y: 5 },
    ]),
  );

  it("are tried apart where they have the same corners in another order", async () => {
    // The sheet has the bite above: only turned by 270 degrees does the plate lie on it.
    const outline = polygon([
      { x: 0, y: 0 },
      { x: 10.2, y: 0 },
      { x: 10.2, y: 10.2 },
      { x: 5.1, y: 5.2 },
      { x: 0, y: 10.2 },
    ]);
    const turned = job({
      parts: [part("bitten", bitten, { rotations: [0, 90, 180, 270] })],
      stock: [stock("s", outline, { available: 1 })],
    });
    expect(copies(await packed(turned))).toBe(1);
  });
});

describe("openings", () => {
  const ring: Region = {
    outer: circle({ x: 0, y: 0 }, 100),
    openings: [reversed(circle({ x: 0, y: 0 }, 80))],
  };

  it("lays plates inside the openings of others, and others inside these", async () => {
    const nested = job({
      clearance: 4,
      edgeMargin: 5,
      parts: [
        part("ring", ring),
        part("middle", {
          outer: circle({ x: 9, y: 0 }, 70),
          openings: [reversed(circle({ x: 9, y: 0 }, 50))],
        }),
        part("core", block(60, 60), { rotations: "any" }),
      ],
      stock: [stock("s", rectangle(0, 0, 211, 211), { available: 1 })],
      effort: { steps: 60 },
    });
    expect(copies(await packed(nested))).toBe(3);
  });

  it("keeps out of openings that are too narrow", async () => {
    const full = job({
      clearance: 4,
      edgeMargin: 5,
      parts: [part("ring", ring), part("core", block(112, 112), { rotations: "any" })],
      stock: [stock("s", rectangle(0, 0, 211, 211), { available: 1 })],
      effort: { steps: 60 },
    });
    const result = await packed(full);
    expect(copies(result)).toBe(1);
    expect(result.unplaced[0]).toMatchObject({ count: 1, reason: "stock-used-up" });
  });
});

describe("rotations", () => {
  it("keeps the grain: half turns only, though quarter turns would save a sheet", async () => {
    const slats = (rotations: number[]): NestJob =>
      job({
        parts: [part("slat", block(300, 50), { demand: 6, rotations })],
        stock: [stock("s", rectangle(0, 0, 320, 300))],
      });
    const along = await packed(slats([0, 180]));
    expect(along.sheets).toMatchObject([{ times: 1 }]);
    const across = await packed(slats([90]));
    expect(copies(across)).toBe(6);
    const turned = job({ ...slats([0, 180]), stock: [stock("s", rectangle(0, 0, 160, 310))] });
    const refused = await nest(turned);
    expect(refused.unplaced).toMatchObject([{ part: "slat", count: 6, reason: "too-large" }]);
    const allowed = await packed({ ...turned, parts: slats([90]).parts });
    expect(allowed.sheets).toMatchObject([{ times: 2 }]);
  });

  it("finds the one angle at which a long plate lies on the diagonal", async () => {
    const strip = job({
      edgeMargin: 5,
      clearance: 3,
      parts: [part("strip", block(330, 20), { rotations: "any" })],
      stock: [stock("s", rectangle(0, 0, 270, 260))],
    });
    expect(copies(await packed(strip))).toBe(1);
  });

  it("lays plates along the edges of a stock drawn askew", async () => {
    const askew = placeContour(rectangle(0, 0, 300, 200), { x: 100, y: 5, rotation: 20.5, mirrored: false });
    const parts = [part("a", block(299, 199), { rotations: "any" })];
    const result = await nest(job({ parts, stock: [stock("offcut", askew)] }));
    expect(result.unplaced).toEqual([]);
  });

  it("ends for sizes so large that numbers stand apart", async () => {
    const size = 6e8;
    const parts = [part("a", block(size, size), { demand: 4 })];
    const result = await nest(job({ parts, stock: [stock("s", rectangle(0, 0, 2 * size, 2 * size))] }));
    expect(result.unplaced).toEqual([]);
  });

  it("mirrors only where that is allowed", async () => {
    const hook = solid(
      polygon([
        { x: 0, y: 0 },
        { x: 100, y: 0 },
        { x: 100, y: 20 },
        { x: 20, y: 20 },
        { x: 20, y: 50 },
        { x: 0, y: 50 },
      ]),
    );
    const notch = polygon([
      { x: 0, y: 0 },
      { x: 102, y: 0 },
      { x: 102, y: 52 },
      { x: 80, y: 52 },
      { x: 80, y: 22 },
      { x: 0, y: 22 },
    ]);
    const hooks = (mirrorable: boolean): NestJob =>
      job({ parts: [part("hook", hook, { mirrorable })], stock: [stock("s", notch)] });
    expect(copies(await packed(hooks(true)))).toBe(1);
    const refused = await nest(hooks(false));
    expect(refused.unplaced).toMatchObject([{ part: "hook", reason: "too-large" }]);
  });
});

describe("stock", () => {
  it("uses free offcuts of any outline first, and only then buys", async () => {
    const brackets = job({
      clearance: 4,
      edgeMargin: 6,
      parts: [part("bracket", block(80, 80), { demand: 7, rotations: "any" })],
      stock: [
        stock("whole", rectangle(0, 0, 300, 200), { cost: 20 }),
        stock("corner", corner, { cost: 0, available: 1 }),
      ],
    });
    const result = await packed(brackets);
    expect(result.sheets.map((sheet) => [sheet.stock, sheet.placements.length])).toEqual([
      ["corner", 6],
      ["whole", 1],
    ]);
    expect(result.cost).toBe(20);
  });

  it("buys one large sheet when that is cheaper than two small ones", async () => {
    const plates = job({
      parts: [part("p", block(100, 100), { demand: 7 })],
      stock: [
        stock("small", rectangle(0, 0, 400, 100), { cost: 10 }),
        stock("large", rectangle(0, 0, 400, 200), { cost: 18 }),
      ],
    });
    expect((await packed(plates)).cost).toBe(18);
    const fewer = { ...plates, parts: [part("p", block(100, 100), { demand: 12 })] };
    expect((await packed(fewer)).cost).toBe(28);
  });

  it("leaves keep-outs free", async () => {
    const held = job({
      clearance: 5,
      parts: [part("p", block(45, 45), { demand: 8 })],
      stock: [stock("s", rectangle(0, 0, 145, 145), { keepOuts: [circle({ x: 72.5, y: 72.5 }, 22)] })],
    });
    expect((await packed(held)).sheets).toMatchObject([{ times: 1 }]);
  });

  it("merges equal sheets, and repeats them for large demands at once", async () => {
    const many = job({
      clearance: 2,
      parts: [part("p", block(98, 98), { demand: 1001 })],
      stock: [stock("s", rectangle(0, 0, 498, 198), { cost: 3 })],
      effort: { steps: 50 },
    });
    const result = await packed(many);
    expect(result.sheets.map((sheet) => [sheet.times, sheet.placements.length])).toEqual([
      [100, 10],
      [1, 1],
    ]);
    expect(result.cost).toBe(303);
  });

  it("leaves the rest of the last sheet in one piece", async () => {
    const few = job({
      parts: [part("p", block(60, 30), { demand: 6, rotations: "any" })],
      stock: [stock("s", rectangle(0, 0, 600, 120))],
      effort: { steps: 300 },
    });
    const [sheet] = (await packed(few)).sheets;
    // 6 plates of 60 x 30 in a column of 120: 90 mm of length at least.
    const reach = Math.max(
      ...(sheet?.placements ?? []).map(
        ({ x, rotation }) => x + (rotation % 180 === 0 ? 60 : rotation === 270 ? 30 : 0),
      ),
    );
    expect(reach).toBeLessThanOrEqual(120);
  });
});
