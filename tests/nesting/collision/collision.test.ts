import { describe, expect, it } from "vitest";
import { collide, polesMeet } from "../../../packages/nesting/src/collision/hit.js";
import { polesOf } from "../../../packages/nesting/src/collision/poles.js";
import { overlapProxy } from "../../../packages/nesting/src/collision/proxy.js";
import { emptyLaid, lay, silhouetteOf } from "../../../packages/nesting/src/collision/silhouette.js";
import type { Polygon } from "../../../packages/nesting/src/nofit/polygon.js";
import { packStrip } from "../../../packages/nesting/src/strip/pack-strip.js";
import type { Strip } from "../../../packages/nesting/src/strip/strip.js";
import {
  cellPolygon,
  covers,
  distanceToRings,
  overlapByBrute,
  randomFrom,
  untangledPolygon,
} from "../nofit/random-polygons.js";
import { checkStrip } from "../strip/check-strip.js";

const block = (width: number, height: number): Polygon => ({
  outer: Float64Array.of(0, 0, width, 0, width, height, 0, height),
  openings: [],
});

function randomPolygon(seed: number): Polygon {
  const random = randomFrom(seed);
  return seed % 3 === 0
    ? cellPolygon(random, 7, 5 + (seed % 20)).polygon
    : untangledPolygon(random, 3 + (seed % 9), undefined);
}

describe("collisions of outlines", () => {
  it("agree with brute force at any angle, with openings", () => {
    for (let seed = 1; seed <= 200; seed++) {
      const random = randomFrom(5000 + seed);
      const [a, b] = [randomPolygon(seed), randomPolygon(seed + 1)];
      const silhouettes = [silhouetteOf(a), silhouetteOf(b)] as const;
      const [la, lb] = [emptyLaid(silhouettes), emptyLaid(silhouettes)];
      const angle = random() * 7;
      const [x, y] = [random() * 60 - 30, random() * 60 - 30];
      lay(silhouettes[0], 0, 0, 0, la);
      lay(silhouettes[1], angle, x, y, lb);
      const turned: Polygon = {
        outer: turn(b.outer, angle),
        openings: b.openings.map((ring) => turn(ring, angle)),
      };
      const expected = overlapByBrute(a, turned, x, y);
      expect(collide(la, lb), `pair ${seed}`).toBe(expected);
      expect(collide(lb, la), `pair ${seed} swapped`).toBe(expected);
      if (polesMeet(la, lb)) expect(expected).toBe(true);
    }
  });

  it("see two equal blocks pressed against the same walls, and not two that only share a line", () => {
    const silhouette = silhouetteOf(block(10, 4));
    const [a, b] = [emptyLaid([silhouette]), emptyLaid([silhouette])];
    lay(silhouette, 0, 0, 0, a);
    lay(silhouette, 0, 7, 0, b);
    expect(collide(a, b)).toBe(true);
    lay(silhouette, 0, 10.001, 0, b);
    expect(collide(a, b)).toBe(false);
    lay(silhouette, 0, 3, 4, b);
    expect(collide(a, b)).toBe(false);
  });

  it("have a proxy that falls as two plates part, without a step where the poles do", () => {
    const silhouette = silhouetteOf(block(10, 4));
    const [a, b] = [emptyLaid([silhouette]), emptyLaid([silhouette])];
    lay(silhouette, 0, 0, 0, a);
    let before = Infinity;
    for (let x = 0; x <= 11; x += 0.01) {
      lay(silhouette, 0, x, 0.3, b);
      const proxy = overlapProxy(a, b);
      expect(proxy).toBeLessThan(before + 0.05);
      expect(before === Infinity || before - proxy < 0.2).toBe(true);
      before = proxy;
    }
    expect(before).toBeGreaterThan(0);
  });
});

describe("poles", () => {
  it("lie inside, clear of one another, the largest first", () => {
    for (let seed = 1; seed <= 60; seed++) {
      const polygon = randomPolygon(seed);
      const rings = [polygon.outer, ...polygon.openings];
      const poles = polesOf(polygon);
      expect(poles.length).toBeGreaterThan(0);
      for (let i = 0; i < poles.length; i += 3) {
        const [x, y, radius] = poles.slice(i, i + 3) as unknown as [number, number, number];
        expect(covers(polygon, x, y)).toBe(true);
        expect(distanceToRings(rings, x, y)).toBeGreaterThanOrEqual(radius - 1e-9);
        for (let j = 0; j < i; j += 3) {
          const distance = Math.hypot(x - (poles[j] as number), y - (poles[j + 1] as number));
          expect(distance).toBeGreaterThanOrEqual(radius + (poles[j + 2] as number) - 1e-9);
        }
      }
    }
  });

  it("find the largest circle of a square", () => {
    expect(polesOf(block(10, 10))[2]).toBeCloseTo(5, 1);
  });
});

describe("packStrip at any angle", () => {
  const strip: Strip = {
    height: 20,
    items: [
      { polygon: { outer: Float64Array.of(0, 0, 9, 0, 0, 9), openings: [] }, demand: 6, rotations: "any" },
      { polygon: block(11, 3), demand: 4, rotations: [0, 180], mirrorable: true },
    ],
  };

  it("turns what may be turned, and nothing else, without overlap", async () => {
    const result = await packStrip(strip, { steps: 700 }, 1, { workers: 0 });
    const check = checkStrip(strip, result);
    expect(check.worstOverlap).toBeLessThan(1e-9);
    expect(check.worstOverhang).toBeLessThan(1e-9);
    for (const { item, rotation } of result.placements) if (item === 1) expect([0, 180]).toContain(rotation);
    expect(result.density).toBeGreaterThan(0.6);
    expect(await packStrip(strip, { steps: 700 }, 1, { workers: 0 })).toEqual(result);
  });
});

function turn(ring: Float64Array, angle: number): Float64Array {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return ring.map((value, i) =>
    i % 2 === 0 ? cos * value - sin * (ring[i + 1] as number) : sin * (ring[i - 1] as number) + cos * value,
  );
}
