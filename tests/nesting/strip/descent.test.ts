import { describe, expect, it } from "vitest";
import { disturb } from "../../../packages/nesting/src/search/disturbance.js";
import { compileInstance } from "../../../packages/nesting/src/search/instance.js";
import { totalOverlap } from "../../../packages/nesting/src/search/pair-book.js";
import { squeeze } from "../../../packages/nesting/src/strip/compression.js";
import { type Descent, descend } from "../../../packages/nesting/src/strip/descent.js";
import { explore } from "../../../packages/nesting/src/strip/exploration.js";
import { renew } from "../../../packages/nesting/src/strip/renewal.js";
import { newStripSearch } from "../../../packages/nesting/src/strip/strip-search.js";
import {
  restoreLayout,
  type StripLayout,
  type StripSearch,
  usedLength,
} from "../../../packages/nesting/src/strip/strip-state.js";
import { hooks } from "./small-strips.js";

/** A search of the hooks; effort is spent when that many placement searches are done. */
function hooksSearch(seed: number, steps: number): StripSearch {
  const instance = compileInstance(
    hooks.items.map(({ polygon, demand, rotations }) => ({
      polygon,
      demand,
      turns: (rotations === "any" ? [0] : rotations).map((rotation) => ({ rotation, mirrored: false })),
    })),
    [],
    { height: hooks.height },
  );
  const strip: StripSearch = newStripSearch(instance, hooks.height, seed, () => strip.search.steps / steps);
  return strip;
}

function outcomeOf<T>(course: Generator<void, T>): T {
  for (;;) {
    const step = course.next();
    if (step.done) return step.value;
  }
}

/** The length a layout really takes, once it is laid out and nothing overlaps. */
function validLength({ search }: StripSearch, layout: StripLayout): number {
  restoreLayout(search, layout);
  expect(totalOverlap(search.book, search.instance)).toBe(0);
  return usedLength(search);
}

describe("descend", () => {
  it("shortens the layout and ends by itself once it is stuck", () => {
    const strip = hooksSearch(1, Infinity);
    const first = strip.best;
    const descent: Descent = { layout: first, step: 0.05, mostStep: 0.05 };
    outcomeOf(descend(strip, descent));
    expect(descent.layout.length).toBeLessThan(first.length);
    expect(strip.best).toBe(descent.layout);
    expect(validLength(strip, descent.layout)).toBe(descent.layout.length);
  });

  it("goes on from a shorter layout of others only while its own is the best", () => {
    const strip = hooksSearch(1, Infinity);
    outcomeOf(descend(strip, { layout: strip.best, step: 0.05, mostStep: 0.05 }));
    const shorter = strip.best;
    for (const leads of [true, false]) {
      const own = hooksSearch(2, 400);
      const first = own.best;
      if (!leads) own.best = { ...first, length: shorter.length * 1.001 };
      own.offered = shorter;
      const descent: Descent = { layout: first, step: 0.4, mostStep: 0.4 };
      outcomeOf(descend(own, descent));
      expect(descent.layout.length <= shorter.length).toBe(leads);
    }
  });
});

describe("squeeze", () => {
  it("takes slack out of a layout and ends by itself", () => {
    const strip = hooksSearch(1, Infinity);
    const loose = strip.best;
    outcomeOf(squeeze(strip, loose));
    expect(strip.best.length).toBeLessThan(loose.length);
    expect(validLength(strip, strip.best)).toBe(strip.best.length);
  });
});

describe("renew", () => {
  it("gives a valid layout that is not the one it came from", () => {
    for (let seed = 1; seed <= 5; seed++) {
      const strip = hooksSearch(seed, Infinity);
      const renewed = outcomeOf(renew(strip));
      if (renewed === undefined) throw new Error("The effort is without end");
      expect(validLength(strip, renewed)).toBe(renewed.length);
      expect(renewed.snapshot.x).not.toEqual(strip.best.snapshot.x);
    }
  });

  it("gives up when the effort is spent", () => {
    const strip = hooksSearch(1, 1);
    strip.search.steps = 1;
    expect(outcomeOf(renew(strip))).toBe(undefined);
  });
});

describe("explore", () => {
  it("never loses the best layout to a renewed one", () => {
    // The first descent of this seed is stuck after 33,000 steps; what it is renewed to is longer.
    const strip = hooksSearch(1, 80000);
    let length = strip.best.length;
    for (const _ of explore(strip)) {
      expect(strip.best.length).toBeLessThanOrEqual(length);
      length = strip.best.length;
    }
    expect(validLength(strip, strip.best)).toBe(length);
  });
});

describe("a strip shorter than an item is long", () => {
  const rectangle = (width: number, height: number) => ({
    outer: Float64Array.of(0, 0, width, 0, width, height, 0, height),
    openings: [],
  });
  const turns = [0, 90].map((rotation) => ({ rotation, mirrored: false }));
  const instance = compileInstance(
    [
      { polygon: rectangle(30, 2), demand: 1, turns },
      { polygon: rectangle(5, 5), demand: 6, turns: turns.slice(0, 1) },
    ],
    [],
    { height: 30 },
  );

  it("has the item turned so that it fits, whatever disturbs it", () => {
    const { search } = newStripSearch(instance, 30, 1, () => 0);
    search.boxes.maxX[0] = 12;
    for (let k = 0; k < 20; k++) {
      disturb(search);
      expect(search.engine.rightEnd(search, 0)).toBeLessThanOrEqual(12);
    }
  });

  it("is never tried where the area, or an item in every turn, needs more", () => {
    const strip: StripSearch = newStripSearch(instance, 30, 1, () => strip.search.steps / 3000);
    const descent: Descent = { layout: strip.best, step: 0.8, mostStep: 0.8 };
    // The rod upright and one row of squares beside it fill the strip.
    const least = 7;
    let shortest = Number.POSITIVE_INFINITY;
    for (const _ of descend(strip, descent))
      shortest = Math.min(shortest, strip.search.boxes.maxX[0] ?? Number.NaN);
    expect(shortest).toBeCloseTo(least, 9);
    expect(descent.layout.length).toBeLessThan(least + 0.01);
  });
});
