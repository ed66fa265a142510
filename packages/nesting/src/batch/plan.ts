import { signedArea } from "@keelcut/geometry";
import { Budget } from "../budget.js";
import { assertJob } from "../job-validation.js";
import { prepare, type Setup } from "../sheets/prepare.js";
import { assembled } from "./assemble.js";
import type { BatchControl, BatchJob, BatchPlan, TradeRow } from "./batch-job.js";
import { assertBatch } from "./batch-validation.js";
import { type Bounds, boundsOf, measuresOf } from "./bound.js";
import { type Choice, choiceOf, sheetsOf } from "./choice.js";
import { FIRST_EFFORT, generated, WHOLE_EFFORT } from "./column-generation.js";
import { bestChoice, tradedOff } from "./fewest-layouts.js";
import { greedyChoice } from "./greedy.js";
import { GuidedMaker } from "./guided.js";
import { guided, worthGuiding } from "./guided-generation.js";
import { addKnown } from "./known-layouts.js";
import { LayoutMaker } from "./layouts.js";
import { cheapestChoice, type Master } from "./master.js";
import { oneLayoutChoices } from "./one-layout.js";
import { LayoutPool } from "./pool.js";
import { restShares } from "./rest-worth.js";
import { availableOf, stockShapes } from "./shapes.js";
import type { Solver } from "./solver.js";
import { trimmed } from "./trim.js";
import { addWholeKits } from "./whole-kits.js";

/** Steps when a job names neither steps nor seconds: half a minute a material at most. */
export const DEFAULT_BATCH_STEPS = 30_000;

/** What a second of effort is worth in steps, roughly: whether it is enough for the guided search. */
const STEPS_A_SECOND = 1000;

/**
 * Plans many copies of a few kinds of plates: which layouts to cut, how often each, from which stock, at the least cost
 * found within the effort, and a bound on what any plan costs.
 *
 * Layouts are made for the mix of one kit, whatever the number of kits; a master programme chooses among them. So the
 * work grows with the kinds of plates and not with the copies, and as long as the master is solved to its end a plan for
 * more kits never costs less than one for fewer (less the worth of the rests, where they have one; and but for the setting up
 * of a layout more, when the last sheet is not full). Deterministic by seed
 * and steps. An abort, like spent effort, ends the search with the best plan so far; there always is one. Every plan, also
 * those `control.onProgress` hears of, has passed `verify`. Throws `NestJobError` for a job that is not sound.
 */
export async function planBatch(given: BatchJob, control: BatchControl = {}): Promise<BatchPlan> {
  const [plan] = await planBatches(given, [given.parts.map((part) => part.demand)], control);
  return plan as BatchPlan;
}

/**
 * Plans for several demands, each given as the copies of every part in their order, from one search for layouts: as good
 * as a plan of its own for each when every part names its copies in a kit, and far quicker. The layouts are those for the
 * mix of `given`, so a part without copies there is made in no plan.
 */
export async function planBatches(
  given: BatchJob,
  demands: readonly (readonly number[])[],
  control: BatchControl = {},
): Promise<BatchPlan[]> {
  const jobs = demands.map((demand) => withDemand(given, demand));
  for (const each of [given, ...jobs]) assertJob(each);
  assertBatch(given);
  const job = pricedByArea(given);
  const open = job.effort.steps === undefined && job.effort.seconds === undefined;
  const signal = control.signal;
  const budget = new Budget(open ? { steps: DEFAULT_BATCH_STEPS } : job.effort, signal ? { signal } : {});
  const setup = prepare(job);
  const shapes = stockShapes(setup, job);
  const fits = (kind: number): boolean => shapes.some((shape) => shape.holds.has(kind));
  const mix = mixOf(
    job,
    job.parts.map((part, kind) => (fits(kind) ? part.demand : 0)),
  );
  const maker = new LayoutMaker(setup, shapes, mix, budget);
  // Trimming depends on the demand, so its steps must not shorten the search for layouts.
  const trimmer = new LayoutMaker(setup, shapes, mix, new Budget({ steps: Number.POSITIVE_INFINITY }, {}));
  const pool = new LayoutPool();
  const areas = setup.kinds.map((kind) => kind.area);
  const restShare = restShares(setup, job);
  const planners = jobs.map((own): Planner => {
    const wanted = pricedByArea(own);
    const demand = wanted.parts.map((part, kind) => (fits(kind) ? part.demand : 0));
    const master = (): Master => ({
      job: wanted,
      shapes,
      layouts: pool.layouts,
      demand,
      areas,
      restShare,
    });
    return { given: own, job: wanted, setup: { ...setup, job: wanted }, trimmer, master, budget };
  });

  const known = addKnown(pool, setup, shapes, job.known ?? []);
  await maker.first(pool);
  const early: Choice[][] = [];
  for (const planner of planners) {
    const again = known.length > 0 ? choiceOf(planner.master(), known) : undefined;
    early.push([
      ...(await finished(planner, greedyChoice(planner.master()))),
      ...(again === undefined ? [] : await finished(planner, again)),
    ]);
  }
  const [first] = planners;
  if (first !== undefined)
    control.onProgress?.(planOf(first, bestChoice(early[0] as Choice[]), noBounds(), []));

  const bounds: Bounds[] = [];
  for (const { job: own, master } of planners) {
    bounds.push(await boundsOf(setup, shapes, own, master().demand, control.solver));
  }
  // A first plan of one layout that meets its bound cannot be bettered, so nothing needs to be sought for it.
  const settled = planners.map((_, index) =>
    (early[index] as Choice[]).some(
      (choice) =>
        choice.cuts.length === 1 &&
        meets(choice, bounds[index] as Bounds) &&
        sparesFree(choice, bounds[index] as Bounds),
    ),
  );
  const masters = planners.map((planner) => planner.master);
  if (settled.includes(false)) {
    const measures = measuresOf(setup, shapes, mix);
    const most = open ? DEFAULT_BATCH_STEPS : (job.effort.steps ?? Number.POSITIVE_INFINITY);
    const { solver } = control;
    const deeper = new GuidedMaker(setup, mix, control.workers ?? 0, signal);
    const worth = Math.min(most, STEPS_A_SECOND * (job.effort.seconds ?? Number.POSITIVE_INFINITY));
    const guide = solver !== undefined && worthGuiding(deeper, shapes, worth);
    const shares = guide ? FIRST_EFFORT : WHOLE_EFFORT;
    await generated(pool, maker, shapes, mix, measures, budget, shares, solver);
    if (guide) {
      await addWholeKits(pool, deeper, shapes, mix, { budget, seed: job.seed });
      for (const [index, planner] of planners.entries()) {
        const master = planner.master();
        const own = bounds[index] as Bounds;
        const worthwhile =
          !settled[index] &&
          isMany(master.demand, mix, own) &&
          !(await metBound(planner, master, own, solver));
        // Others keep their layouts, whatever is sought for the demands beside them.
        if (!worthwhile) masters[index] = () => master;
      }
      if (masters.some((master, index) => master === planners[index]?.master)) {
        const effort = { budget, most, seed: job.seed };
        try {
          await guided(pool, deeper, shapes, mix, measures[0], effort, solver);
        } finally {
          deeper.close();
        }
      }
    }
  }
  const plans: BatchPlan[] = [];
  for (const [index, planner] of planners.entries()) {
    const master = (masters[index] as () => Master)();
    const { choice, trade } = await tradedOff(
      master,
      [
        ...(early[index] as Choice[]),
        ...(settled[index] || !few(job) || signal?.aborted
          ? []
          : await oneLayoutChoices(master, planner.job.surplusPercent ?? 0, planner.trimmer)),
      ],
      // What costs least may leave less: where rests have a worth, stock is compared all the same.
      settled[index] && job.rests === undefined ? undefined : control.solver,
      (found) => finished(planner, found),
      () => signal?.aborted === true,
    );
    plans.push(planOf(planner, choice, bounds[index] as Bounds, trade));
  }
  return plans;
}

/** Whether few layouts are asked for, or cheaper than many. */
function few({ maxLayouts, costPerLayout = 0 }: BatchJob): boolean {
  return maxLayouts !== undefined || costPerLayout > 0;
}

function withDemand(job: BatchJob, demand: readonly number[]): BatchJob {
  if (demand.length !== job.parts.length) {
    throw new RangeError(`a demand of ${demand.length} numbers for ${job.parts.length} parts`);
  }
  return { ...job, parts: job.parts.map((part, kind) => ({ ...part, demand: demand[kind] as number })) };
}

interface Planner {
  readonly given: BatchJob;
  readonly job: BatchJob;
  readonly setup: Setup;
  /** Lays what stays on a trimmed sheet together. */
  readonly trimmer: LayoutMaker;
  readonly master: () => Master;
  readonly budget: Budget;
}

/**
 * The choice without copies that are too many: with them taken off in one place, and evenly. Its stock, which is enough, is
 * kept where buying anew by rule costs more.
 */
async function finished({ job, trimmer, master }: Planner, choice: Choice): Promise<Choice[]> {
  const found: Choice[] = [];
  for (const style of ["together", "evenly"] as const) {
    const cuts = await trimmed(choice.cuts, master(), job.surplusPercent ?? 0, trimmer, style);
    const ways = [choiceOf(master(), cuts), choiceOf(master(), cuts, choice.bought)];
    const [cheapest] = ways.filter((way) => way !== undefined).toSorted((a, b) => a.cost - b.cost);
    if (cheapest !== undefined) found.push(cheapest);
  }
  return found;
}

/** Kits, or sheets, from which on a few percent saved on each sheet come to whole sheets. */
const MANY = 8;

/**
 * True for demands that the guided search is worth while for. It saves less than an eighth, so that one kit more still
 * costs no less where it sets in.
 */
function isMany(demand: readonly number[], mix: readonly number[], { sheets }: Bounds): boolean {
  const kits = mix.flatMap((count, kind) => (count > 0 ? [(demand[kind] as number) / count] : []));
  return Math.min(...kits) >= MANY || sheets.value >= MANY;
}

/**
 * True when the best choice among the layouts so far takes no dearer stock than any plan does: then only fewer layouts
 * could save anything, and for those the guided search is not needed.
 */
async function metBound(planner: Planner, master: Master, bounds: Bounds, solver: Solver): Promise<boolean> {
  const answer = await cheapestChoice(master, solver, undefined);
  if (answer === undefined) return false;
  // The bound holds for a plan of one layout.
  const beyondOne = (choice: Choice): number =>
    (planner.job.costPerLayout ?? 0) * Math.max(0, choice.cuts.length - 1);
  const met = (choice: Choice): boolean =>
    meets({ ...choice, cost: choice.cost - beyondOne(choice) }, bounds) && sparesFree(choice, bounds);
  return met(answer.choice) && (await finished(planner, answer.choice)).some(met);
}

function planOf(
  { given, job, setup, budget }: Planner,
  choice: Choice,
  bounds: Bounds,
  trade: readonly TradeRow[],
): BatchPlan {
  const falls = given.stock.some((stock) => stock.fallsFurther === true);
  const { result, surplus, use } = assembled(setup, job, choice, budget.steps);
  const layoutCount = choice.cuts.length;
  const real = given.stock === job.stock;
  const sheetCount = sheetsOf(choice.cuts);
  const handled = (layouts: number, sheets: number): number =>
    (job.costPerLayout ?? 0) * layouts + (job.costPerSheet ?? 0) * sheets;
  return {
    sheets: result.sheets,
    unplaced: result.unplaced,
    surplus,
    use: real ? use : use.map((each) => ({ ...each, each: 0 })),
    sheetCount,
    layoutCount,
    cost: real ? choice.cost : handled(layoutCount, sheetCount),
    restWorth: choice.restWorth,
    yield: result.yield,
    leastSheets: bounds.sheets,
    leastCost: falls
      ? FALLING
      : real
        ? bounds.cost
        : {
            value: handled(Math.min(1, layoutCount), bounds.sheets.value),
            because: "the stock costs nothing, one layout its setting up, each sheet its handling",
          },
    optimal: result.unplaced.length === 0 && !falls && meets(choice, bounds),
    withinMaxLayouts: layoutCount <= (job.maxLayouts ?? Number.POSITIVE_INFINITY),
    trade: real ? trade : trade.map((row) => ({ ...row, cost: handled(row.layouts, row.sheets) })),
    steps: budget.steps,
  };
}

/** A plan made with the highest of falling prices says nothing of what the cheapest plan costs. */
const FALLING: Bounds["cost"] = {
  value: 0,
  because: "not known: a price falls with the quantity, and the plan reckons with its first",
};

/** True when everything is made for no more than any plan costs. */
function meets({ left, cost }: Choice, bounds: Bounds): boolean {
  return left.every((count) => count === 0) && cost <= bounds.cost.value * (1 + 1e-9) + 1e-9;
}

/** True unless fewer pieces of what costs nothing might do. */
function sparesFree({ cuts, freeArea }: Choice, { sheets }: Bounds): boolean {
  return freeArea === 0 || sheetsOf(cuts) <= sheets.value;
}

function noBounds(): Bounds {
  const none = { value: 0, because: "not reckoned yet" };
  return { sheets: none, cost: none };
}

/** Copies of each kind in one kit; of kinds that are wanted and fit somewhere. */
function mixOf(job: BatchJob, demand: readonly number[]): number[] {
  const wanted = demand.filter((count) => count > 0);
  const common = wanted.reduce(greatestCommonDivisor, 0);
  const named = job.parts.every((part, kind) => demand[kind] === 0 || (part.perKit ?? 0) > 0);
  return job.parts.map((part, kind) => {
    const count = demand[kind] as number;
    if (count === 0) return 0;
    return named ? (part.perKit as number) : count / common;
  });
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}

/**
 * Where nothing has a price, area has: the least of it is wanted then, and rests are worth nothing. Where handling costs
 * money, the area of all pieces there are weighs less than the least of it.
 */
function pricedByArea(job: BatchJob): BatchJob {
  if (job.stock.some((stock) => stock.cost > 0 || stock.tiers?.some((tier) => tier.each > 0))) return job;
  const { rests: _, ...unpriced } = job;
  const copies = job.parts.reduce((sum, part) => sum + part.demand, 0);
  const areas = job.stock.map((stock) => signedArea(stock.outline) * Math.min(copies, availableOf(stock)));
  const all = areas.reduce((sum, area) => sum + area, 0);
  const money = [job.costPerSheet ?? 0, job.costPerLayout ?? 0].filter((cost) => cost > 0);
  const rate = money.length === 0 ? 1e-6 : Math.min(...money) / (2 * Math.max(1, all));
  return {
    ...unpriced,
    stock: job.stock.map((stock) => {
      const { tiers: __, ...plain } = stock;
      return { ...plain, cost: rate * signedArea(stock.outline) };
    }),
  };
}
