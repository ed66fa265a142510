import fc from "fast-check";
import { expect, it } from "vitest";
import { compileInstance } from "../../../packages/nesting/src/search/instance.js";
import { nofitEngine } from "../../../packages/nesting/src/search/nofit-engine.js";
import { totalOverlap } from "../../../packages/nesting/src/search/pair-book.js";
import { press } from "../../../packages/nesting/src/search/pressing.js";
import { newSearch, rebuild, type Search } from "../../../packages/nesting/src/search/search.js";

const upright = [{ rotation: 0, mirrored: false }];

/** Squares of side 10 in a box 60 long and 10 high, their left sides where they are said to be. */
function squares(lefts: readonly number[]): Search {
  const polygon = { outer: Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10), openings: [] };
  const instance = compileInstance([{ polygon, demand: lefts.length, turns: upright }], []);
  const boxes = {
    count: 1,
    minX: new Float64Array(1),
    minY: new Float64Array(1),
    maxX: Float64Array.of(60),
    maxY: Float64Array.of(10),
  };
  const search = newSearch(nofitEngine, instance, boxes, 1);
  lefts.forEach((left, i) => {
    search.x[i] = left + 5;
    search.y[i] = 5;
    search.present[i] = 1;
  });
  rebuild(search);
  return search;
}

it("closes small gaps to the last millionth, without overlap", () => {
  const gap = fc.double({ min: 0, max: 0.02, noNaN: true });
  fc.assert(
    fc.property(fc.array(gap, { minLength: 1, maxLength: 5 }), (gaps) => {
      let at = 0;
      const lefts = gaps.map((each, i) => {
        at += each + (i > 0 ? 10 : 0);
        return at;
      });
      const search = squares(lefts);
      for (const _ of press(search));
      rebuild(search);
      expect(totalOverlap(search.book, search.instance)).toBe(0);
      for (let i = 0; i < gaps.length; i++) {
        expect(Math.abs((search.x[i] ?? 0) - 5 - 10 * i)).toBeLessThan(1e-6);
      }
    }),
    { seed: 3, numRuns: 60 },
  );
});
