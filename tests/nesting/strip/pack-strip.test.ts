import { Worker } from "node:worker_threads";
import { describe, expect, it } from "vitest";
import { compileStrip } from "../../../packages/nesting/src/strip/engines.js";
import { packCompiled, packStrip } from "../../../packages/nesting/src/strip/pack-strip.js";
import type { Strip, StripItem, StripResult } from "../../../packages/nesting/src/strip/strip.js";
import { openWorker, type WorkerPort } from "../../../packages/nesting/src/workers/open-worker.js";
import { checkStrip } from "./check-strip.js";
import { frameAndBlock, hooks, jigsaw } from "./small-strips.js";

const here = { workers: 0 };
const workerFile = new URL("../../../packages/nesting/dist/workers/strip-worker.js", import.meta.url);

async function watchedWorker(onClose: () => void): Promise<WorkerPort> {
  const port = (await openWorker()) as WorkerPort;
  return {
    ...port,
    close: () => {
      onClose();
      port.close();
    },
  };
}

function expectValid(strip: Strip, result: StripResult): void {
  const check = checkStrip(strip, result);
  expect(check.worstOverlap).toBeLessThan(1e-6);
  expect(check.worstOverhang).toBeLessThan(1e-9);
  strip.items.forEach((item, k) => {
    const placed = result.placements.filter((placement) => placement.item === k);
    expect(placed.length).toBe(item.demand);
    for (const { rotation } of placed) expect(item.rotations).toContain(rotation);
  });
}

describe("packStrip", () => {
  it("lays interlocking items out validly and better than at first", async () => {
    const lengths: number[] = [];
    const result = await packStrip(hooks, { steps: 4000 }, 1, {
      ...here,
      onProgress: (best) => {
        expectValid(hooks, best);
        lengths.push(best.length);
      },
    });
    expectValid(hooks, result);
    expect(result.length).toBeLessThan(lengths[0] as number);
    expect(lengths).toEqual([...lengths].sort((a, b) => b - a));
    // Eight seeds gave 0.735 to 0.781.
    expect(result.density).toBeGreaterThan(0.72);
  });

  it("puts a jigsaw together", async () => {
    const results = [];
    for (const seed of [1, 2, 3]) results.push(await packStrip(jigsaw, { steps: 12000 }, seed, here));
    for (const result of results) expectValid(jigsaw, result);
    // Compression ends with steps of half a millionth, so a few millionths may be left.
    expect(Math.min(...results.map((result) => result.length))).toBeLessThan(20 * (1 + 3e-6));
  });

  it("compares outlines where tables of set turns would take too long", async () => {
    const compiled = compileStrip(hooks, { steps: Number.POSITIVE_INFINITY, seconds: 1e-6 });
    expect(compiled.instance.silhouettes.length).toBeGreaterThan(0);
    const result = await packCompiled(compiled, { steps: 1000 }, 1, here);
    expectValid(hooks, result);
    expect(result.density).toBeGreaterThan(0.6);
  });

  it("leaves out what is not wanted, whatever its size, and keeps the numbers of the others", async () => {
    const huge = { outer: Float64Array.of(0, 0, 900, 0, 900, 900, 0, 900), openings: [] };
    const unwanted: StripItem = { polygon: huge, demand: 0, rotations: [0] };
    const strip = { ...hooks, items: [unwanted, ...hooks.items] };
    const seen: number[] = [];
    const result = await packStrip(strip, { steps: 500 }, 1, {
      ...here,
      onProgress: ({ placements }) => seen.push(...placements.map(({ item }) => item)),
    });
    expectValid(strip, result);
    expect(Math.min(...seen)).toBe(1);
  });

  it("lays a crescent flat that is lowest on its horns", async () => {
    // A half ring: its inner side is no edge of the hull, and level on its two ends it is 20.5 high; on no side is it lower than 21.2.
    const half = Array.from({ length: 17 }, (_, i) => (Math.PI * i) / 16);
    const ring = [
      ...half.map((a) => [20 * Math.cos(a), 20 * Math.sin(a)]),
      ...half.reverse().map((a) => [12 * Math.cos(a), 12 * Math.sin(a) - 0.5]),
    ];
    const turn = 0.4;
    const outer = Float64Array.from(
      ring.flatMap(([x = 0, y = 0]) => [
        x * Math.cos(turn) - y * Math.sin(turn),
        x * Math.sin(turn) + y * Math.cos(turn),
      ]),
    );
    const strip: Strip = {
      height: 20.8,
      items: [{ polygon: { outer, openings: [] }, demand: 1, rotations: "any" }],
    };
    const result = await packStrip(strip, { steps: 50 }, 1, here);
    expect(result.placements).toHaveLength(1);
    expect(checkStrip(strip, result).worstOverhang).toBeLessThan(1e-9);
  });

  it("lays blocks into openings that fit them exactly", async () => {
    const result = await packStrip(frameAndBlock, { steps: 3000 }, 1, here);
    expect(result.length).toBeLessThan(60 * (1 + 1e-6));
    const frames = result.placements.filter(({ item }) => item === 0);
    for (const block of result.placements.filter(({ item }) => item === 1)) {
      const host = frames.filter(({ x, y }) => Math.hypot(block.x - x - 5, block.y - y - 5) < 1e-5);
      expect(host.length).toBe(1);
    }
  });

  it("gives the same layout for the same seed and steps, with any number of workers", async () => {
    const alone = await packStrip(hooks, { steps: 3000 }, 5, here);
    const again = await packStrip(hooks, { steps: 3000 }, 5, here);
    const together = await packStrip(hooks, { steps: 3000 }, 5, { workers: 2 });
    expect(again).toEqual(alone);
    expect(together).toEqual(alone);
    const other = await packStrip(hooks, { steps: 3000 }, 6, here);
    expect(other.placements).not.toEqual(alone.placements);
  });

  it("ends with the best so far when the signal is aborted", async () => {
    const controller = new AbortController();
    const seen: StripResult[] = [];
    const result = await packStrip(hooks, { seconds: 60 }, 1, {
      workers: 2,
      signal: controller.signal,
      onProgress: (best) => {
        seen.push(best);
        controller.abort();
      },
    });
    expect(result).toEqual(seen.at(-1));
    expectValid(hooks, result);
  });

  it("survives the death of one worker, and of both", async () => {
    for (const doomed of [[0], [0, 1]]) {
      const threads: Worker[] = [];
      const startWorker = async (): Promise<WorkerPort> => {
        const worker = new Worker(workerFile);
        threads.push(worker);
        return {
          post: (message) => worker.postMessage(message),
          onMessage: (listen) => worker.on("message", listen),
          onEnd: (listen) => worker.once("exit", (code) => listen(new Error(`ended with ${code}`))),
          close: () => void worker.terminate(),
        };
      };
      let killed = false;
      const result = await packStrip(hooks, { seconds: 3 }, 1, {
        startWorker,
        onProgress: () => {
          if (!killed) for (const k of doomed) void threads[k]?.terminate();
          killed = true;
        },
      });
      expect(killed).toBe(true);
      expectValid(hooks, result);
    }
  });

  it("ends at once where no strip can be shorter", async () => {
    const polygon = { outer: Float64Array.of(0, 0, 8, 0, 8, 5, 0, 5), openings: [] };
    const alone: Strip = { height: 6, items: [{ polygon, demand: 1, rotations: [0, 180] }] };
    const result = await packStrip(alone, { steps: 1e12 }, 1, here);
    expectValid(alone, result);
    expect(result.length).toBe(8);
    // Small items beside the longest one.
    const beside = { ...alone, items: [...alone.items, { ...hooks.items[3], demand: 1 }] } as Strip;
    const both = await packStrip({ ...beside, height: 10 }, { seconds: 1000 }, 1, here);
    expect(both.length).toBe(8);
    expect((await packStrip({ height: 6, items: [] }, { steps: 1e12 }, 1, here)).length).toBe(0);
  });

  it("says how long the longest item is, whatever its angle", async () => {
    const polygon = { outer: Float64Array.of(0, 0, 17, 0, 17, 2, 0, 2), openings: [] };
    const small = { outer: Float64Array.of(0, 0, 2, 0, 2, 1, 0, 1), openings: [] };
    const strip: Strip = {
      height: 6,
      items: [
        { polygon, demand: 1, rotations: "any" },
        { polygon: small, demand: 1, rotations: "any" },
      ],
    };
    for (const steps of [400, 8000]) {
      const result = await packStrip(strip, { steps }, 1, here);
      const check = checkStrip(strip, result);
      expect(check.worstOverlap).toBeLessThan(1e-6);
      expect(check.worstOverhang).toBeLessThan(1e-9);
      // 17 x 2 turned until it touches both sides of the strip: 17 sin a + 2 cos a = 6, 17 cos a + 2 sin a = 16.986.
      expect(result.length).toBeGreaterThan(16.985);
    }
  });

  it("ends its workers when the caller's listener throws", async () => {
    let closed = 0;
    const startWorker = (): Promise<WorkerPort> => watchedWorker(() => closed++);
    const onProgress = (): void => {
      throw new Error("full disk");
    };
    const broken = packStrip(hooks, { seconds: 5 }, 1, { startWorker, onProgress });
    await expect(broken).rejects.toThrow("full disk");
    expect(closed).toBe(2);
  });

  it("searches in the calling thread, with all the effort, when no worker can load its code", async () => {
    const startWorker = async (): Promise<WorkerPort> => ({
      post: () => undefined,
      onMessage: () => undefined,
      onEnd: (listen) => setTimeout(() => listen(new Error("no such file"))),
      close: () => undefined,
    });
    const result = await packStrip(hooks, { steps: 3000 }, 1, { startWorker });
    expect(result).toEqual(await packStrip(hooks, { steps: 3000 }, 1, here));
  });

  it("searches in the calling thread when one worker does not start, and ends the other", async () => {
    let started = 0;
    let closed = 0;
    const startWorker = async (): Promise<WorkerPort> => {
      if (started++ > 0) throw new Error("no thread left");
      return watchedWorker(() => closed++);
    };
    const result = await packStrip(hooks, { steps: 100 }, 1, { startWorker });
    expect(result.placements.length).toBeGreaterThan(0);
    expect([started, closed]).toEqual([2, 1]);
  });

  it("lays an item at any angle that fits the strip only askew", async () => {
    const diamond = { outer: Float64Array.of(70, 0, 140, 70, 70, 140, 0, 70), openings: [] };
    const result = await packStrip(
      { height: 105, items: [{ polygon: diamond, demand: 2, rotations: "any" }] },
      { steps: 100 },
      1,
      here,
    );
    // Squares of side 99.
    expect(result.length).toBeCloseTo(2 * 70 * Math.SQRT2, 3);
  });

  it("refuses what cannot be packed", async () => {
    const [hook] = hooks.items;
    const only = (change: Partial<StripItem>): Strip => ({
      height: 24,
      items: hook ? [{ ...hook, ...change }] : [],
    });
    for (const demand of [-1, 1.5, Number.NaN]) {
      await expect(packStrip(only({ demand }), { steps: 10 }, 1, here)).rejects.toThrow(/demand of item 0/);
    }
    for (const rotations of [[], [Number.NaN]]) {
      await expect(packStrip(only({ rotations }), { steps: 10 }, 1, here)).rejects.toThrow(/one rotation/);
    }
    expect(await packStrip({ height: 24, items: [] }, { steps: 10 }, 1, here)).toMatchObject({
      length: 0,
      density: 0,
    });

    const wide: Strip = { height: 3, items: hooks.items };
    await expect(packStrip(wide, { steps: 10 }, 1, here)).rejects.toThrow(/kind 0 is larger/);
    await expect(packStrip(hooks, {}, 1, here)).rejects.toThrow(RangeError);
    await expect(packStrip({ ...hooks, height: Number.NaN }, { steps: 10 }, 1, here)).rejects.toThrow(
      RangeError,
    );
    const broken: Strip = {
      height: 24,
      items: [
        {
          polygon: { outer: Float64Array.of(0, 0, 1, 0, Number.NaN, 1), openings: [] },
          demand: 1,
          rotations: [0],
        },
      ],
    };
    await expect(packStrip(broken, { steps: 10 }, 1, here)).rejects.toThrow(/coordinate NaN/);
  });
});
