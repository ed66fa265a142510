import { rectangle } from "@keelcut/geometry";
import { type BatchJob, type BatchPart, type BatchStock, type NestResult, planBatch } from "@keelcut/nesting";
import { describe, expect, it } from "vitest";
import { solveModel } from "../../packages/cli/src/cost/lengths/linear-model.js";
import { sheetsOf } from "../../packages/nesting/src/batch/choice.js";
import { GuidedMaker } from "../../packages/nesting/src/batch/guided.js";
import { cheapestChoice } from "../../packages/nesting/src/batch/master.js";
import { LayoutPool } from "../../packages/nesting/src/batch/pool.js";
import { soundLayout } from "../../packages/nesting/src/batch/proof.js";
import { type StockShape, stockShapes } from "../../packages/nesting/src/batch/shapes.js";
import { addWholeKits } from "../../packages/nesting/src/batch/whole-kits.js";
import { Budget } from "../../packages/nesting/src/budget.js";
import { resultOf } from "../../packages/nesting/src/result.js";
import type { FilledSheet } from "../../packages/nesting/src/sheets/fill.js";
import { prepare, type Setup } from "../../packages/nesting/src/sheets/prepare.js";
import { batch, expectSound, sheet } from "./batch-jobs.js";
import { independentFaults } from "./independent-check.js";

const angle = [
  { x: 0, y: 0, bulge: 0 },
  { x: 120, y: 0, bulge: 0 },
  { x: 120, y: 35, bulge: 0.1 },
  { x: 40, y: 40, bulge: 0 },
  { x: 35, y: 110, bulge: 0 },
  { x: 0, y: 110, bulge: 0 },
];
const wedge = [
  { x: 0, y: 0, bulge: 0 },
  { x: 90, y: 0, bulge: 0.3 },
  { x: 20, y: 60, bulge: 0 },
];

function oddJob(stock: readonly BatchStock[], over: Partial<BatchJob> = {}): BatchJob {
  const part = (id: string, outer: typeof angle, over: Partial<BatchPart>): BatchPart => ({
    id,
    region: { outer, openings: [] },
    demand: 40,
    perKit: 1,
    rotations: "any",
    mirrorable: true,
    ...over,
  });
  const parts = [
    part("angle", angle, { perKit: 2, demand: 80 }),
    part("wedge", wedge, { perKit: 3, demand: 120, rotations: [0, 180], mirrorable: false }),
  ];
  return batch(parts, stock, { clearance: 6, edgeMargin: 8, effort: { steps: 4500 }, ...over });
}

interface Made {
  readonly job: BatchJob;
  readonly setup: Setup;
  readonly shape: StockShape;
  readonly maker: GuidedMaker;
}

function made(stock: BatchStock, over: Partial<BatchJob> = {}, workers = 0): Made {
  const job = oddJob([stock], over);
  const setup = prepare(job);
  const [shape] = stockShapes(setup, job);
  if (shape === undefined) throw new Error("a job without a sheet");
  return { job, setup, shape, maker: new GuidedMaker(setup, [2, 3], workers, undefined) };
}

/** The layout as a result of its own, and what an independent library finds wrong with it. */
function faults({ job, setup, shape }: Made, filled: FilledSheet): unknown[] {
  const parts = job.parts.map((part, kind) => ({ ...part, demand: filled.counts[kind] as number }));
  const stock = shape.pieces[0];
  if (stock === undefined) throw new Error("a shape without stock");
  const sheets = [{ ...filled, stock, times: 1 }];
  const result: NestResult = resultOf(setup, { sheets, left: [0, 0] }, 0);
  return independentFaults({ ...job, parts }, result);
}

const effort = { steps: 1500, seed: 3 };
const worths = [2, 1];

describe("layouts by the guided search", () => {
  const notched: BatchStock = {
    ...sheet("notched", 400, 300, 5),
    outline: [
      { x: 0, y: 0, bulge: 0 },
      { x: 400, y: 0, bulge: 0 },
      { x: 400, y: 200, bulge: 0 },
      { x: 250, y: 300, bulge: 0 },
      { x: 0, y: 300, bulge: 0 },
    ],
    keepOuts: [rectangle(120, 80, 40, 30)],
  };
  const plain = sheet("plain", 420, 300, 5);

  it("fill sheets, odd outlines and keep-outs soundly, within whole kits", () => {
    for (const [stock, over] of [
      [plain, {}],
      [notched, {}],
      [plain, { edgeMargin: 1 }],
      [plain, { clearance: 0, edgeMargin: 0 }],
    ] as const) {
      const own = made(stock, over);
      const filled = own.maker.filled(own.shape, worths, effort);
      if (filled === undefined) throw new Error(`nothing was laid on ${stock.id}`);
      expect(faults(own, filled)).toEqual([]);
      const limits = own.maker.limits(own.shape);
      for (const [kind, count] of filled.counts.entries()) {
        expect(count).toBeLessThanOrEqual(limits[kind] as number);
      }
      expect(filled.counts[0]).toBeGreaterThan(0);
    }
  });

  it("lay proposed plates along and across a plain sheet, and say when they are too many", async () => {
    const own = made(plain);
    for (const seed of [2, 3]) {
      const few = await own.maker.stretched(own.shape, [2, 3], { ...effort, seed });
      expect(few?.length).toBeLessThanOrEqual(1);
      expect(few?.filled?.counts).toEqual([2, 3]);
      if (few?.filled !== undefined) expect(faults(own, few.filled)).toEqual([]);
      const many = await own.maker.stretched(own.shape, [14, 21], { ...effort, seed });
      expect(many?.length).toBeGreaterThan(1);
      if (many?.filled === undefined) throw new Error("nothing was kept");
      expect(many.filled.laid.length).toBeLessThan(35);
      expect(faults(own, many.filled)).toEqual([]);
    }
    expect(await made(notched).maker.stretched(made(notched).shape, [2, 3], effort)).toBeUndefined();
  });

  it("are the same with threads and without", async () => {
    const [alone, together] = [made(plain), made(plain, {}, 2)];
    const one = await alone.maker.stretched(alone.shape, [6, 9], effort);
    const two = await together.maker.stretched(together.shape, [6, 9], effort);
    expect(two?.filled?.laid).toEqual(one?.filled?.laid);
    expect(two?.length).toBe(one?.length);
  });

  it("are refused by the proof when a plate lies on another or beyond the sheet", () => {
    const own = made(plain);
    const filled = own.maker.filled(own.shape, worths, effort) as FilledSheet;
    expect(soundLayout(own.setup, own.shape, filled)).toBe(true);
    const [first, ...others] = filled.laid;
    if (first === undefined) throw new Error("an empty sheet");
    const { minX } = filled.model.limits;
    for (const x of [minX - 500, first.x + 60]) {
      expect(soundLayout(own.setup, own.shape, { ...filled, laid: [{ ...first, x }, ...others] })).toBe(
        false,
      );
    }
  });

  it("make a sound plan, and the same every time", async () => {
    const job = oddJob([plain]);
    const plan = await planBatch(job, { solver: solveModel });
    expectSound(job, plan);
    expect(plan.unplaced).toEqual([]);
    expect(await planBatch(job, { solver: solveModel })).toEqual(plan);
  }, 120_000);
});

describe("layouts for whole kits", () => {
  const plain = made(sheet("plain", 300, 250, 5));

  it("take several sheets together, each of them sound", () => {
    const { filled, steps } = plain.maker.together(plain.shape, 3, 2, { steps: 20_000, seed: 1 });
    expect(filled?.length).toBe(2);
    const laid = [0, 1].map((kind) => filled?.reduce((sum, { counts }) => sum + (counts[kind] as number), 0));
    expect(laid).toEqual([6, 9]);
    for (const each of filled ?? []) expect(faults(plain, each)).toEqual([]);
    expect(steps).toBeLessThanOrEqual(20_100);
    // Twenty kits have more area than two sheets.
    const many = plain.maker.together(plain.shape, 20, 2, { steps: 300, seed: 1 });
    expect(many.filled).toBeUndefined();
  });

  it("are left out where the sheet is no plain rectangle", () => {
    const odd = made({ ...sheet("odd", 500, 300, 5), keepOuts: [rectangle(200, 100, 40, 40)] });
    expect(odd.maker.together(odd.shape, 1, 1, effort)).toEqual({ filled: undefined, steps: 0 });
  });

  it("are not sought once the effort is spent, nor for plates that fit no sheet", async () => {
    const { maker, shape } = plain;
    const pool = new LayoutPool();
    const budget = new Budget({ steps: 10 }, {});
    budget.steps = 10;
    await addWholeKits(pool, maker, [shape], [2, 3], { budget, seed: 1 });
    expect(pool.layouts).toEqual([]);
    const { effort: _, ...open } = oddJob([sheet("tiny", 60, 50, 5)]);
    const nothing = await planBatch({ ...open, effort: {} }, { solver: solveModel });
    expect(nothing.sheetCount).toBe(0);
    expect(nothing.unplaced.length).toBeGreaterThan(0);
  });

  it("give the master as many kits on few sheets as are found room for", async () => {
    const { setup, shape, maker, job } = plain;
    const pool = new LayoutPool();
    const budget = new Budget({ steps: 100_000 }, {});
    await addWholeKits(pool, maker, [shape], [2, 3], { budget, seed: 1 });
    const master = (kits: number) => ({
      job: { ...job, costPerLayout: 0 },
      shapes: [shape],
      layouts: pool.layouts,
      demand: [2 * kits, 3 * kits],
      areas: setup.kinds.map(({ area }) => area),
      restShare: () => 0,
    });
    const sheetsFor = async (kits: number): Promise<number> => {
      const answer = await cheapestChoice(master(kits), solveModel, undefined);
      return answer === undefined ? Number.NaN : sheetsOf(answer.choice.cuts);
    };
    const most = Math.max(
      ...[1, 2, 3].map((kits) =>
        maker.together(shape, kits, 1, { steps: 6000, seed: 1 }).filled ? kits : 0,
      ),
    );
    expect(most).toBeGreaterThan(0);
    expect(await sheetsFor(most)).toBe(1);
    expect(await sheetsFor(3)).toBe(2);
    expect(budget.steps).toBeGreaterThan(0);
  });
});
