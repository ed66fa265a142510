import { describe, expect, it } from "vitest";
import { depthAt } from "../../../packages/nesting/src/nofit/depth-field.js";
import type { Polygon } from "../../../packages/nesting/src/nofit/polygon.js";
import { construct, largestFirst } from "../../../packages/nesting/src/search/construct.js";
import { compileInstance, type Instance } from "../../../packages/nesting/src/search/instance.js";
import { usualMove } from "../../../packages/nesting/src/search/move.js";
import { nofitEngine } from "../../../packages/nesting/src/search/nofit-engine.js";
import { gatherAround, overlapAt, overlapNear } from "../../../packages/nesting/src/search/overlap.js";
import {
  closeRow,
  openRow,
  totalOverlap,
  weightedOverlap,
} from "../../../packages/nesting/src/search/pair-book.js";
import {
  insert,
  newSearch,
  rebuild,
  remove,
  type Search,
} from "../../../packages/nesting/src/search/search.js";
import { separate } from "../../../packages/nesting/src/search/separation.js";
import { overlapByBrute, randomFrom, untangledPolygon } from "../nofit/random-polygons.js";

const turns = [0, 180].map((rotation) => ({ rotation, mirrored: false }));

function someInstance(): Instance {
  const random = randomFrom(11);
  const kinds = Array.from({ length: 5 }, () => untangledPolygon(random, 6, undefined));
  return compileInstance(
    kinds.map((polygon) => ({ polygon, demand: 4, turns })),
    [],
  );
}

/** A search in one box, all items piled up at random. */
function piledUp(instance: Instance, width: number, height: number): Search {
  const boxes = {
    count: 1,
    minX: Float64Array.of(0),
    minY: Float64Array.of(0),
    maxX: Float64Array.of(width),
    maxY: Float64Array.of(height),
  };
  const search = newSearch(nofitEngine, instance, boxes, 4);
  for (let i = 0; i < instance.movable; i++) {
    search.x[i] = width * search.random();
    search.y[i] = height * search.random();
    search.present[i] = 1;
  }
  rebuild(search);
  return search;
}

describe("what a place costs", () => {
  /** Many small items and more large ones than a list of them should hold. */
  function mixedInstance(): Instance {
    const random = randomFrom(5);
    const small = untangledPolygon(random, 5, undefined);
    const shrunk = { outer: small.outer.map((value) => value / 20), openings: [] };
    return compileInstance(
      [
        { polygon: small, demand: 12, turns },
        { polygon: shrunk, demand: 150, turns },
      ],
      [],
    );
  }

  it.each([
    ["of about one size", someInstance],
    ["of two sizes", mixedInstance],
  ])("is the same by the hash, by the items gathered around, and by all items %s", (_, make) => {
    const instance = make();
    const search = piledUp(instance, 120, 120);
    const { random, book } = search;
    const { entry, fields, shapes } = instance.pairs;
    for (let k = 0; k < 300; k++) {
      const item = Math.floor(random() * instance.movable);
      const shape = search.shape[item] as number;
      const [midX, midY] = [120 * random(), 120 * random()];
      openRow(book, item);
      remove(search, item);
      gatherAround(search, shape, midX, midY);
      for (const off of [0.1, 0.3, 2]) {
        const x = midX + off * instance.meanSize * (2 * random() - 1);
        const y = midY + off * instance.meanSize * (2 * random() - 1);
        let all = 0;
        for (let j = 0; j < instance.movable; j++) {
          if (j === item) continue;
          const e = entry[(search.shape[j] as number) * shapes + shape] as number;
          const sign = Math.sign(e);
          const [dx, dy] = [sign * (x - (search.x[j] as number)), sign * (y - (search.y[j] as number))];
          const depth = e === 0 ? 0 : depthAt(fields, Math.abs(e) - 1, dx, dy, search.tolerance);
          const [a, b] = [instance.kindOfItem[item] as number, instance.kindOfItem[j] as number];
          all += depth * (instance.scale[a * instance.kinds + b] as number);
        }
        expect(overlapAt(search, item, shape, x, y, Infinity)).toBeCloseTo(all, 6);
        expect(overlapNear(search, item, shape, x, y, Infinity)).toBeCloseTo(all, 6);
      }
      insert(search, item);
      closeRow(book, item);
    }
  });
});

describe("separation", () => {
  it("keeps the book true to the layout after every sweep", () => {
    const instance = someInstance();
    const search = piledUp(instance, 85, 85);
    let sweeps = 0;
    for (const _ of separate(search, { move: usualMove, patience: 10, rounds: 1 })) {
      const { book } = search;
      for (let i = 0; i < instance.movable; i++) {
        openRow(book, i);
        remove(search, i);
        const afresh = overlapAt(
          search,
          i,
          search.shape[i] as number,
          search.x[i] as number,
          search.y[i] as number,
          Infinity,
        );
        insert(search, i);
        closeRow(book, i);
        expect(afresh).toBeCloseTo(weightedOverlap(book, instance, i), 6);
      }
      expect(book.rowWeight.every((weight) => weight === 1)).toBe(true);
      expect(book.rowRecord.every((record) => record === -1)).toBe(true);
      const total = totalOverlap(book, instance);
      rebuild(search);
      expect(totalOverlap(book, instance)).toBeCloseTo(total, 6);
      if (++sweeps > 25) break;
    }
    expect(sweeps).toBeGreaterThan(2);
  });

  it("ends without overlap where there is room, and says so", () => {
    const search = piledUp(someInstance(), 260, 100);
    expect(finish(separate(search, { move: usualMove, patience: 50, rounds: 2 }))).toBe(true);
    expect(totalOverlap(search.book, search.instance)).toBe(0);
  });

  it("gives up where there is none", () => {
    const block: Polygon = { outer: Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10), openings: [] };
    const instance = compileInstance([{ polygon: block, demand: 5, turns }], []);
    const search = piledUp(instance, 20, 20);
    expect(finish(separate(search, { move: usualMove, patience: 10, rounds: 1 }))).toBe(false);
    expect(totalOverlap(search.book, instance)).toBeGreaterThan(1);
    const four = compileInstance([{ polygon: block, demand: 4, turns }], []);
    expect(finish(separate(piledUp(four, 20, 20), { move: usualMove, patience: 50, rounds: 2 }))).toBe(true);
  });
});

describe("a first layout", () => {
  it("is free of overlap, by brute force, and lays what fits", () => {
    const random = randomFrom(11);
    const polygons = Array.from({ length: 5 }, () => untangledPolygon(random, 6, undefined));
    const instance = compileInstance(
      polygons.map((polygon) => ({ polygon, demand: 4, turns: turns.slice(0, 1) })),
      [],
    );
    const search = piledUp(instance, 400, 100);
    search.present.fill(0);
    rebuild(search);
    expect(construct(search, largestFirst(search))).toBe(20);
    for (let i = 0; i < 20; i++) {
      for (let j = 0; j < i; j++) {
        const [a, b] = [
          polygons[instance.kindOfItem[i] as number],
          polygons[instance.kindOfItem[j] as number],
        ];
        const at = (k: number): [number, number] => [
          (search.x[k] as number) - (instance.centreX[search.shape[k] as number] as number),
          (search.y[k] as number) - (instance.centreY[search.shape[k] as number] as number),
        ];
        const [ax, ay] = at(i);
        const [bx, by] = at(j);
        // Parted by what the tips of two shrunk needles may overlap (ten hairs each), so that touching is no overlap.
        const away = Math.hypot(
          (search.x[j] as number) - (search.x[i] as number),
          (search.y[j] as number) - (search.y[i] as number),
        );
        const dx = (1e-6 * ((search.x[j] as number) - (search.x[i] as number))) / away;
        const dy = (1e-6 * ((search.y[j] as number) - (search.y[i] as number))) / away;
        const overlaps = overlapByBrute(a as Polygon, b as Polygon, bx - ax + dx, by - ay + dy);
        if (overlaps)
          expect(overlapByBrute(a as Polygon, b as Polygon, bx - ax - dx, by - ay - dy)).toBe(false);
      }
    }
  });
});

function finish(course: Generator<void, boolean>): boolean {
  for (;;) {
    const step = course.next();
    if (step.done) return step.value;
  }
}
