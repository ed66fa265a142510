import { circle, polygon, type Region, rectangle, reversed, roundedPolygon } from "@keelcut/geometry";
import { NestJobError, type NestResult, nest, verify } from "@keelcut/nesting";
import { describe, expect, it } from "vitest";
import { block, copies, job, packed, part, solid, stock } from "./jobs.js";

function withoutSteps({ steps, ...rest }: NestResult): Omit<NestResult, "steps"> {
  expect(steps).toBeGreaterThan(0);
  return rest;
}

describe("what cannot be laid", () => {
  it("says how much too large a plate is and for which stock", async () => {
    const large = job({
      edgeMargin: 10,
      parts: [part("deck", block(420, 310), { demand: 2, rotations: [0, 90] })],
      stock: [stock("a", rectangle(0, 0, 200, 200)), stock("b", rectangle(0, 0, 400, 340))],
    });
    const { unplaced, sheets } = await nest(large);
    expect(sheets).toEqual([]);
    expect(unplaced).toEqual([
      {
        part: "deck",
        count: 2,
        reason: "too-large",
        message:
          "deck is 420 x 310 mm at its best angle, 0 degrees; the nearest stock, b (400 x 340 mm), " +
          "leaves 380 x 320 mm within its edge margin: it lacks 40 x 0 mm",
      },
    ]);
  });

  it("says what stock is used up", async () => {
    const short = job({
      parts: [part("p", block(100, 100), { demand: 5 })],
      stock: [stock("a", rectangle(0, 0, 200, 100), { available: 2 })],
    });
    const { unplaced, sheets } = await nest(short);
    expect(sheets).toMatchObject([{ times: 2 }]);
    expect(unplaced).toMatchObject([{ part: "p", count: 1, reason: "stock-used-up" }]);
    expect(unplaced[0]?.message).toBe(
      "1 of 5 copies of p are left: everything they fit on is used up (2 of a)",
    );
  });

  it("lays the plates of most worth when stock is short", async () => {
    const short = job({
      parts: [
        part("large", block(100, 100), { demand: 2, value: 1 }),
        part("dear", block(50, 50), { demand: 8, value: 9 }),
      ],
      stock: [stock("a", rectangle(0, 0, 200, 100), { available: 1 })],
    });
    const { unplaced } = await packed(short);
    expect(unplaced).toMatchObject([{ part: "large", count: 2 }]);
  });

  it("copes with no plates, no stock, no demand, and margins that leave nothing", async () => {
    expect(await nest(job())).toMatchObject({ sheets: [], unplaced: [], cost: 0, yield: 0 });
    const plate = part("p", block(10, 10));
    expect((await nest(job({ parts: [plate] }))).unplaced).toMatchObject([
      { count: 1, reason: "stock-used-up" },
    ]);
    const narrow = job({ parts: [plate], stock: [stock("s", rectangle(0, 0, 50, 50))], edgeMargin: 25 });
    expect((await nest(narrow)).unplaced).toMatchObject([{ count: 1, reason: "too-large" }]);
    const none = job({ parts: [{ ...plate, demand: 0 }], stock: [stock("s", rectangle(0, 0, 50, 50))] });
    expect(await nest(none)).toMatchObject({ sheets: [], unplaced: [] });
  });

  it("refuses a job that is not sound", async () => {
    await expect(nest(job({ clearance: Number.NaN }))).rejects.toBeInstanceOf(NestJobError);
  });
});

describe("the run", () => {
  const mixed = job({
    clearance: 4,
    edgeMargin: 8,
    parts: [
      part(
        "cheek",
        solid(
          roundedPolygon([
            { x: 0, y: 0, radius: 9 },
            { x: 210, y: 0 },
            { x: 170, y: 90, radius: 20 },
            { x: 20, y: 90 },
          ]),
        ),
        { demand: 4, rotations: "any", mirrorable: true },
      ),
      part("disc", solid(circle({ x: 0, y: 0 }, 31)), { demand: 7, rotations: "any" }),
      part("bar", block(140, 22), { demand: 5, rotations: [0, 180] }),
    ],
    stock: [
      stock("s", rectangle(0, 0, 400, 300), { cost: 4 }),
      stock("t", rectangle(0, 0, 250, 300), { cost: 2.6 }),
    ],
    effort: { steps: 400 },
  });

  it("gives the same answer for the same seed and steps", async () => {
    const first = await nest(mixed);
    expect(await nest(mixed)).toEqual(first);
  });

  it("reports sound layouts that never get worse, and returns the last of them", async () => {
    const heard: NestResult[] = [];
    const result = await nest(mixed, { onProgress: (best) => heard.push(best) });
    expect(heard.length).toBeGreaterThan(0);
    for (const best of heard) expect(verify(mixed, best)).toEqual([]);
    const costs = heard.map((best) => best.cost);
    expect([...costs].sort((a, b) => b - a)).toEqual(costs);
    expect(withoutSteps(heard.at(-1) as NestResult)).toEqual(withoutSteps(result));
  });

  it("ends with a whole layout when it is aborted, before or while it runs", async () => {
    const endless = { ...mixed, effort: { seconds: 3600 } };
    const before = await nest(endless, { signal: AbortSignal.abort() });
    expect(copies(before)).toBe(16);
    const controller = new AbortController();
    const later = await nest(endless, { signal: controller.signal, onProgress: () => controller.abort() });
    expect(copies(later)).toBe(16);
    expect(verify(mixed, later)).toEqual([]);
  });

  it("ends by itself after the seconds given, with everything laid", async () => {
    const result = await nest({ ...mixed, effort: { seconds: 0.3 } });
    expect(copies(result)).toBe(16);
  });

  it("lays 300 plates of ten kinds", async () => {
    const outlines: Region[] = [3, 4, 5, 6, 7].flatMap((corners) => [
      solid(
        polygon(
          Array.from({ length: corners }, (_, k) => ({
            x: 30 * Math.cos((2 * Math.PI * k) / corners),
            y: (20 + corners) * Math.sin((2 * Math.PI * k) / corners),
          })),
        ),
      ),
      {
        outer: circle({ x: 0, y: 0 }, 12 + 5 * corners),
        openings: [reversed(circle({ x: 0, y: 0 }, 5 * corners))],
      },
    ]);
    const many = job({
      clearance: 4,
      edgeMargin: 10,
      parts: outlines.map((region, index) => part(`p${index}`, region, { demand: 30, rotations: "any" })),
      stock: [stock("s", rectangle(0, 0, 1000, 500))],
      effort: { steps: 1 },
    });
    expect(copies(await packed(many))).toBe(300);
  });
});
