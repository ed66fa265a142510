import { describe, expect, it } from "vitest";
import type { Polygon, Turn } from "../../../packages/nesting/src/nofit/polygon.js";
import {
  compileSheet,
  type FilledSheet,
  fillSheet,
  type SheetProblem,
} from "../../../packages/nesting/src/search/fill-sheet.js";
import { checkLayout, placedRing } from "../../benchmarks/layout-check.js";
import { covers, distanceToRings } from "../nofit/random-polygons.js";

const block = (width: number, height: number, x = 0, y = 0): Polygon =>
  polygon(x, y, x + width, y, x + width, y + height, x, y + height);
const polygon = (...corners: number[]): Polygon => ({ outer: Float64Array.from(corners), openings: [] });
const upright: Turn[] = [{ rotation: 0, mirrored: false }];
const quarters: Turn[] = [0, 90, 180, 270].map((rotation) => ({ rotation, mirrored: false }));

/** No two items overlap, nor an item and a forbidden area, by jsts; every corner lies in the outline's box. */
function expectValid(problem: SheetProblem, filled: FilledSheet, forbidden: readonly Polygon[] = []): void {
  const corners = ({ outer }: Polygon): [number, number][] =>
    Array.from({ length: outer.length / 2 }, (_, i) => [outer[2 * i] as number, outer[2 * i + 1] as number]);
  const still = { x: 0, y: 0, rotation: 0, mirrored: false };
  const items = filled.placements.map((placement) => ({
    ...placement,
    polygon: corners(problem.items[placement.item]?.polygon ?? block(1, 1)),
  }));
  const areas = [...problem.fixed, ...forbidden].map((area) => ({ ...still, polygon: corners(area) }));
  expect(checkLayout([...items, ...areas], 1, 1).worstOverlap).toBeLessThan(1e-6);
  const outline = problem.outline.outer;
  for (const [x, y] of items.flatMap(placedRing)) {
    const inside = covers({ outer: outline, openings: [] }, x, y);
    expect(inside || distanceToRings([outline], x, y) < 1e-6).toBe(true);
  }
}

describe("fillSheet", () => {
  it("gives up one dear item for two that are dearer together", () => {
    const problem: SheetProblem = {
      outline: block(10, 10),
      fixed: [],
      items: [
        { polygon: block(6, 10), turns: upright, limit: 1 },
        { polygon: block(5, 10), turns: upright, limit: 2 },
      ],
    };
    const sheet = compileSheet(problem);
    const filled = fillSheet(sheet, [6.1, 5], [1, 2], { steps: 2000 }, 1);
    expectValid(problem, filled);
    expect(filled.value).toBe(10);
    // The same sheet with other values and limits.
    expect(fillSheet(sheet, [6.1, 1], [1, 2], { steps: 500 }, 1).value).toBe(6.1);
    expect(fillSheet(sheet, [0, 5], [1, 1], { steps: 500 }, 1).value).toBe(5);
  });

  it("keeps within an offcut of any outline, off keep-outs and plates that lie there", () => {
    const problem: SheetProblem = {
      outline: {
        outer: Float64Array.of(100, 50, 140, 50, 140, 70, 120, 70, 120, 90, 100, 90),
        openings: [Float64Array.of(105, 55, 105, 60, 110, 60, 110, 55)],
      },
      fixed: [polygon(130, 50, 140, 50, 140, 60)],
      items: [
        { polygon: polygon(0, 0, 12, 0, 12, 4, 4, 4, 4, 12, 0, 12), turns: quarters, limit: 20 },
        { polygon: block(3, 3), turns: upright, limit: 100 },
        { polygon: block(45, 1), turns: upright, limit: 5 },
      ],
    };
    const filled = fillSheet(compileSheet(problem), [80, 9, 1000], [20, 100, 5], { steps: 1500 }, 3);
    expectValid(problem, filled, [block(5, 5, 105, 55), block(20, 20, 120, 70)]);
    expect(filled.placements.some(({ item }) => item === 2)).toBe(false);
    // 1,125 square units are usable.
    expect(filled.value).toBeGreaterThan(800);
    expect(filled.value).toBeLessThanOrEqual(1125);
  });

  it("lays plates in the openings of other plates", () => {
    const problem: SheetProblem = {
      outline: block(30, 30),
      fixed: [],
      items: [
        {
          polygon: { outer: block(30, 30).outer, openings: [Float64Array.of(5, 5, 5, 25, 25, 25, 25, 5)] },
          turns: upright,
          limit: 1,
        },
        { polygon: block(10, 10), turns: upright, limit: 9 },
      ],
    };
    const filled = fillSheet(compileSheet(problem), [500, 100], [1, 9], { steps: 500 }, 1);
    expect(filled.value).toBe(900);
  });

  it("repeats itself for the same seed and steps", () => {
    const problem: SheetProblem = {
      outline: block(40, 40),
      fixed: [],
      items: [{ polygon: polygon(0, 0, 12, 0, 12, 4, 4, 4, 4, 12, 0, 12), turns: quarters, limit: 30 }],
    };
    const fill = (): FilledSheet => fillSheet(compileSheet(problem), [80], [30], { steps: 800 }, 9);
    expect(fill()).toEqual(fill());
  });
});
