import { describe, expect, it } from "vitest";
import { depthAt } from "../../../packages/nesting/src/nofit/depth-field.js";
import { buildPairTable, type PairTable } from "../../../packages/nesting/src/nofit/pair-table.js";
import { extentOf, type Polygon, turnedPolygon } from "../../../packages/nesting/src/nofit/polygon.js";
import { cellPolygon, randomFrom, untangledPolygon } from "./random-polygons.js";

/** Kinds in four turns each, shapes 4k to 4k + 3, all about the centres of their boxes. */
function shapesOf(kinds: number) {
  return Array.from({ length: kinds }, (_, k) => {
    const random = randomFrom(50 + k);
    const polygon = k % 2 === 0 ? untangledPolygon(random, 7, undefined) : cellPolygon(random, 5, 6).polygon;
    return [0, 90, 180, 270].map((rotation, turn) => ({
      polygon: centred(turnedPolygon(polygon, { rotation, mirrored: false })),
      quarterTurn: 4 * k + ((turn + 1) % 4),
      halfTurn: 4 * k + ((turn + 2) % 4),
      fixed: false,
    }));
  }).flat();
}

function centred({ outer, openings }: Polygon): Polygon {
  const { minX, maxX, minY, maxY } = extentOf(outer);
  const move = (ring: Float64Array): Float64Array =>
    ring.map((value, i) => value - (i % 2 === 0 ? (minX + maxX) / 2 : (minY + maxY) / 2));
  return { outer: move(outer), openings: openings.map(move) };
}

function depth({ entry, fields, shapes }: PairTable, s: number, t: number, x: number, y: number): number {
  const e = entry[s * shapes + t] ?? 0;
  if (e === 0) return 0;
  return depthAt(fields, Math.abs(e) - 1, Math.sign(e) * x, Math.sign(e) * y, 0);
}

describe("a table of pairs", () => {
  it("is the same when regions of turned pairs are shared", () => {
    const shapes = shapesOf(4);
    const shared = buildPairTable(shapes);
    const alone = buildPairTable(
      shapes.map((shape) => ({ ...shape, quarterTurn: undefined, halfTurn: undefined })),
    );
    if (shared === undefined || alone === undefined) throw new Error("no table");
    const random = randomFrom(3);
    let inside = 0;
    for (let s = 0; s < shapes.length; s++) {
      for (let t = 0; t < shapes.length; t++) {
        for (let k = 0; k < 20; k++) {
          const [x, y] = [60 * random() - 30, 60 * random() - 30];
          const expected = depth(alone, s, t, x, y);
          if (expected > 0) inside++;
          expect(depth(shared, s, t, x, y)).toBeCloseTo(expected, 6);
        }
      }
    }
    expect(inside).toBeGreaterThan(1000);
  });

  it("is given up when it takes longer than allowed", () => {
    expect(buildPairTable(shapesOf(4), 1e-6)).toBeUndefined();
    expect(buildPairTable(shapesOf(2), 1e6)).toBeDefined();
  });
});
