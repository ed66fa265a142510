import { describe, expect, it } from "vitest";
import type { Instance } from "../../../packages/nesting/src/search/instance.js";
import { compileStrip } from "../../../packages/nesting/src/strip/engines.js";
import { packStrip } from "../../../packages/nesting/src/strip/pack-strip.js";
import { RACE } from "../../../packages/nesting/src/strip/race.js";
import { newStream, type StreamPlan } from "../../../packages/nesting/src/strip/stream.js";
import type { Strip, StripResult } from "../../../packages/nesting/src/strip/strip.js";
import type { StripLayout } from "../../../packages/nesting/src/strip/strip-state.js";
import { checkStrip } from "./check-strip.js";
import { hooks } from "./small-strips.js";

const here = { workers: 0 };
/** Enough for tables of quarter turns to be worth while. */
const enough = { steps: 6000 };

/** Hooks and crosses at any angle. */
const interlocking: Strip = {
  height: hooks.height,
  items: hooks.items.slice(0, 2).map((item) => ({ ...item, rotations: "any" as const })),
};

/** Slanting triangles without a right angle. */
const slanting = (rotations: Strip["items"][number]["rotations"]): Strip => ({
  height: 20,
  items: [
    { polygon: { outer: Float64Array.of(0, 0, 11, 3, 2, 7), openings: [] }, demand: 5, rotations },
    { polygon: { outer: Float64Array.of(0, 0, 8, -2, 9, 5), openings: [] }, demand: 5, rotations },
  ],
});

function expectSound(strip: Strip, result: StripResult): void {
  const check = checkStrip(strip, result);
  expect(check.worstOverlap).toBeLessThan(1e-6);
  expect(check.worstOverhang).toBeLessThan(1e-9);
}

const isQuarterTurn = (rotation: number): boolean =>
  Math.abs(rotation / 90 - Math.round(rotation / 90)) < 1e-9;

describe("a strip of items at any angle", () => {
  it("lies in quarter turns where shapes interlock, with or without workers", async () => {
    const strip = interlocking;
    const alone = await packStrip(strip, enough, 3, here);
    expectSound(strip, alone);
    expect(alone.placements.every(({ rotation }) => isQuarterTurn(rotation))).toBe(true);
    expect(await packStrip(strip, enough, 3, { workers: 2 })).toEqual(alone);
  });

  it("is shorter than in quarter turns where shapes lie closer at angles of their own", async () => {
    const strip = slanting("any");
    const result = await packStrip(strip, enough, 1, here);
    expectSound(strip, result);
    expect(result.placements.some(({ rotation }) => !isQuarterTurn(rotation))).toBe(true);
    const quarters = await packStrip(slanting([0, 90, 180, 270]), enough, 1, here);
    expect(result.length).toBeLessThan(quarters.length);
  });

  it("is left to one engine when the tables would take much of the effort", () => {
    const seconds = Number.POSITIVE_INFINITY;
    expect(compileStrip(interlocking, { steps: 500, seconds }).rival).toBeUndefined();
    const both = compileStrip(interlocking, { ...enough, seconds });
    expect(both.instance.silhouettes).toEqual([]);
    expect(both.rival?.silhouettes).not.toEqual([]);
    expect(compileStrip(hooks, { ...enough, seconds }).rival).toBeUndefined();
  });
});

describe("a stream whose engine races", () => {
  const { instance, rival } = compileStrip(slanting("any"), { ...enough, seconds: Number.POSITIVE_INFINITY });
  const plan = { height: 20, seed: 1, steps: 2000, seconds: Number.POSITIVE_INFINITY };
  const set = { ...plan, instance, rival } as StreamPlan;
  const angled = { ...plan, instance: rival, rival: instance } as StreamPlan;
  const slice = Number.POSITIVE_INFINITY;

  it("keeps its own way during the race, and goes on from the winner's layout after it", () => {
    const winner = newStream(angled).work({ until: 1, offered: undefined }, slice)?.best;
    const stream = newStream(set);
    const during = stream.work({ until: RACE, offered: winner }, slice);
    expect(during?.best.snapshot.angle.every((angle) => angle === 0)).toBe(true);
    expect(during?.best.length).toBeGreaterThan(winner?.length ?? Number.POSITIVE_INFINITY);
    const after = stream.work({ until: RACE + 0.01, offered: winner }, slice);
    expect(after?.best.length).toBeLessThanOrEqual(winner?.length ?? 0);
    // The effort of both its searches counts.
    expect(after?.steps).toBeGreaterThanOrEqual(during?.steps ?? Number.POSITIVE_INFINITY);
  });

  it("goes on with the winner even when its own engine had found nothing more to shorten", () => {
    // A bar longer than wide that fits the strip askew: in quarter turns its length is the end, at free angles not.
    const bar = { outer: Float64Array.of(0, 0, 17, 0, 17, 2, 0, 2), openings: [] };
    const strip: Strip = { height: 8, items: [{ polygon: bar, demand: 1, rotations: "any" }] };
    const { instance, rival, height } = compileStrip(strip, { steps: 4000, seconds: Infinity });
    const plan = { height, seed: 1, steps: 4000, seconds: Infinity };
    const first = newStream({ ...plan, instance, rival });
    const winner = newStream({ ...plan, instance: rival as Instance, rival: instance });
    const before = first.work({ until: RACE, offered: undefined }, slice);
    expect(before?.finished).toBe(true);
    const best = winner.work({ until: RACE, offered: undefined }, slice)?.best as StripLayout;
    expect(best.length).toBeLessThan(17);
    const after = first.work({ until: 1, offered: best }, slice);
    expect(after?.steps).toBeGreaterThan(3000);
    expect(after?.best.length).toBeLessThanOrEqual(best.length);
  });

  it("never takes up a layout at free angles where it knows set turns only", () => {
    const stream = newStream(set);
    const own = stream.work({ until: RACE, offered: undefined }, slice)?.best as StripLayout;
    const turned = (length: number): StripLayout => ({
      length,
      snapshot: { ...own.snapshot, angle: own.snapshot.angle.map(() => 0.3) },
    });
    // A draw: it goes on in its own way.
    stream.work({ until: RACE + 0.01, offered: turned(own.length) }, slice);
    const after = stream.work({ until: 1, offered: turned(0.1 * own.length) }, slice);
    expect(after?.best.length).toBeGreaterThan(0.5 * own.length);
    expect(after?.best.snapshot.angle.every((angle) => angle === 0)).toBe(true);
  });

  it("leaves free angles for a shorter layout in set turns", () => {
    const stream = newStream(angled);
    const own = stream.work({ until: 0, offered: undefined }, slice)?.best as StripLayout;
    const winner = newStream(set).work({ until: 1, offered: undefined }, slice)?.best as StripLayout;
    expect(winner.length).toBeLessThan(own.length);
    const after = stream.work({ until: RACE + 0.2, offered: winner }, slice);
    // Set turns only from here on, though the stream began with free angles.
    expect(after?.best.snapshot.angle.every((angle) => angle === 0)).toBe(true);
    expect(after?.best.length).toBeLessThanOrEqual(winner.length);
  });
});
