import { clockwise, type Point, type Region, rectangle } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { sheetDrawing } from "../../packages/cli/src/output/index.js";
import { cuttingTour } from "../../packages/cli/src/tour/cutting-tour.js";
import { nestingDepths } from "../../packages/cli/src/tour/nesting-depths.js";
import { estimateOf, frameOf, nestsOf, stockOf } from "./cost-fixture.js";

const SPREAD: readonly Region[] = Array.from({ length: 60 }, (_, index) => ({
  outer: rectangle((index * 137) % 600, (index * 211) % 400, 3, 3),
  openings: [],
}));

/** Straight moves from the corner through the points and back, mm, added up here. */
function travel(points: readonly Point[]): number {
  const corner = { x: 0, y: 0 };
  return [...points, corner].reduce((sum, point, index) => {
    const from = index === 0 ? corner : (points[index - 1] ?? corner);
    return sum + Math.hypot(point.x - from.x, point.y - from.y);
  }, 0);
}

describe("the cutting tour", () => {
  it("visits every contour once and is far shorter than the order given", () => {
    const { stops, moves } = cuttingTour(SPREAD);
    expect(stops.map(({ region }) => region).toSorted((a, b) => a - b)).toEqual(SPREAD.map((_, i) => i));
    const length = moves.reduce((sum, move) => sum + move, 0);
    expect(length).toBeCloseTo(travel(stops.map(({ entry }) => entry)), 6);
    expect(length).toBeLessThan(travel(SPREAD.map(({ outer }) => outer[0] as Point)) / 4);
  });

  it("is empty for an empty sheet", () => {
    expect(cuttingTour([])).toEqual({ stops: [], moves: [0] });
  });

  it("takes a plate that touches the side of the opening it lies in for one that lies in it", () => {
    const host: Region = {
      outer: rectangle(0, 0, 100, 100),
      openings: [clockwise(rectangle(10, 10, 60, 60))],
    };
    expect(nestingDepths([host, { outer: rectangle(10, 20, 30, 30), openings: [] }])).toEqual([0, 1]);
    expect(nestingDepths([host, { outer: rectangle(10, 10, 60, 60), openings: [] }])).toEqual([0, 0]);
  });

  it("cuts what lies in openings first, deepest first, openings before outlines", () => {
    const host: Region = {
      outer: rectangle(0, 0, 100, 100),
      openings: [clockwise(rectangle(10, 10, 60, 60)), clockwise(rectangle(80, 80, 2, 2))],
    };
    const guest: Region = {
      outer: rectangle(20, 20, 30, 30),
      openings: [clockwise(rectangle(25, 25, 20, 20))],
    };
    const inner: Region = { outer: rectangle(30, 30, 5, 5), openings: [] };
    const apart: Region = { outer: rectangle(200, 0, 5, 5), openings: [] };
    expect(nestingDepths([host, inner, apart, guest])).toEqual([0, 2, 0, 1]);
    const order = cuttingTour([host, inner, apart, guest]).stops.map(
      ({ region, part }) => `${region} ${part}`,
    );
    expect(order.slice(0, 3)).toEqual(["1 outline", "3 0", "3 outline"]);
    expect(order.slice(3, 5).toSorted()).toEqual(["0 0", "0 1"]);
    expect(order.slice(5).toSorted()).toEqual(["0 outline", "2 outline"]);
  });

  it("enters a contour only where it may be entered", () => {
    const last = (contour: readonly Point[]): Point[] => contour.slice(-1) as Point[];
    for (const { contour, entry } of cuttingTour(SPREAD, last).stops) expect(entry).toEqual(contour.at(-1));
  });
});

describe("the order of the drawings", () => {
  it("is the one whose travel is charged: the same moves between the lines as drawn", async () => {
    const stockList = stockOf();
    const nests = nestsOf(7, stockList);
    const found = await estimateOf(7, { nests, stockList });
    const plates = new Map(frameOf().plates.map((each) => [each.id, each]));
    let checked = 0;
    for (const nest of nests) {
      for (const [index, sheet] of nest.result.sheets.entries()) {
        const stock = nest.stock.find((each) => each.id === sheet.stock);
        if (stock === undefined) throw new Error("no stock");
        const material = { material: nest.material, thickness: nest.thickness };
        const options = { size: { state: "nominal" as const }, marks: false, stockOutline: false };
        const drawn = sheetDrawing({ sheet, number: index + 1, stock, material, plates }, options);
        if (!drawn.ok) throw new Error(drawn.findings[0]?.message);
        const starts = drawn.drawing.entities.flatMap((entity) =>
          entity.kind === "contour" ? entity.contour.slice(0, 1) : [],
        );
        const charged = found.cutting.filter(
          (each) => each.material === nest.material && each.plates === sheet.placements.length,
        );
        expect(charged).toHaveLength(1);
        expect(starts).toHaveLength(charged[0]?.starts ?? 0);
        expect(travel(starts) / 1000).toBeCloseTo(charged[0]?.metres.travel ?? 0, 9);
        checked++;
      }
    }
    expect(checked).toBe(4);
  });
});
