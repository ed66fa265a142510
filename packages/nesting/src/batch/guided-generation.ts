import type { Budget } from "../budget.js";
import type { FilledSheet } from "../sheets/fill.js";
import type { GuidedMaker, Try } from "./guided.js";
import { worthOf } from "./layouts.js";
import { lastingWorths, type Worths } from "./master.js";
import type { Measure } from "./measure.js";
import { worthiestCounts } from "./pattern-measure.js";
import type { LayoutPool } from "./pool.js";
import { isEndless, type StockShape } from "./shapes.js";
import type { Solver } from "./solver.js";

/** Share of the effort after which nothing new is begun; trimming and the master need the rest. */
const GUIDED_SHARE = 0.95;

/** Steps of the guided search, about 0.05 ms each, that count as one step of the job, which lays one plate. */
export const STEPS_A_STEP = 16;

/** Steps of one try: fewer at first, for early gains are cheap. */
const FIRST_TRY = 25_000;
const LONGEST_TRY = 40_000;
const LONGER = 1.1;

/** With less effort than this the constructive packer has use for all of it. */
const LEAST_EFFORT = 4000;

/** Most of the effort that may go into the tables of one sheet. */
const TABLES = 0.15;

/** Rounds without a gain, at the longest tries, after which it ends. */
const PATIENCE = 24;

/** With more plates on a sheet than this the constructive packer is about as good, and far quicker. */
const MOST_PLATES = 300;

/** Every so many rounds another shape than the cheapest for its area is tried, until it comes to less than a share of its price. */
const OTHER_SHAPE = 5;
const HOPELESS = 0.9;

/** Share of a sheet that the plates proposed for it take at first, and by how much it rises when they all had room. */
const FIRST_FULLNESS = 0.92;
const FULLER = 1.005;

/** By how much it rises until a proposal is worth the sheet. */
const RISE = 1.003;

/** Nodes of a knapsack that only proposes. */
const NODES = 100;

/**
 * Column generation as in `generated`, with layouts by the guided search, which puts plates where others must give way:
 * the plates that a knapsack proposes at the master's worths are laid on a strip of the sheet's width; on a sheet that is
 * no plain rectangle, or when no proposal is worth it, what is dear is filled in one by one. What a strip leaves free is
 * filled too. All keep to whole kits: sheets of few kinds that look worthy rarely have a place in a plan.
 *
 * Measured on the PE-HD plates of examples/teal, a hundred kits, where the constructive packer's layouts leave the master's
 * relaxation at 26.25 sheets: 25.7 to 25.9 after 24 processor seconds on strips, 25.6 with what they leave free filled,
 * 25.54 from 40 s on and no less in 86 s; 26.1 by filling alone. With twice the copies allowed that whole kits have, filling
 * stayed at 26.1 in 45 s and strips at 26.2.
 */
export async function guided(
  pool: LayoutPool,
  maker: GuidedMaker,
  shapes: readonly StockShape[],
  mix: readonly number[],
  area: Measure,
  { budget, most, seed }: { readonly budget: Budget; readonly most: number; readonly seed: number },
  solver: Solver,
): Promise<void> {
  const targets = targetsOf(shapes, maker);
  const [main, ...others] = targets;
  if (main === undefined) return;
  const fullness = new Map(targets.map((shape) => [shape, FIRST_FULLNESS]));
  const opened = new Set<StockShape>();
  let tried = FIRST_TRY;
  for (let round = 0, idle = 0; idle < PATIENCE && !budget.spent(GUIDED_SHARE); round++) {
    const worths = await lastingWorths(pool.layouts, mix, targets, solver);
    if (worths === undefined) return;
    const other = round % OTHER_SHAPE === OTHER_SHAPE - 1 && others.length > 0;
    const shape = other ? (others[Math.floor(round / OTHER_SHAPE) % others.length] as StockShape) : main;
    if (!opened.has(shape)) {
      const cost = Math.ceil(maker.pairs(shape));
      if (budget.steps + cost > GUIDED_SHARE * most) return;
      budget.steps += cost;
      opened.add(shape);
    }
    if (!maker.usable(shape)) {
      if (!other) return;
      continue;
    }
    const left = (GUIDED_SHARE * most - budget.steps) * STEPS_A_STEP;
    if (left < 1) return;
    const effort = { steps: Math.ceil(Math.min(tried, left)), seed: 1000 * seed + round };
    const full = fullness.get(shape) as number;
    const laid = await laidOnStrip(maker, shape, worths, area, full, effort, solver);
    if (laid !== undefined) fullness.set(shape, laid.fullness);
    const filled = laid === undefined ? maker.filled(shape, worths.plates, effort) : laid.filled;
    // A step lets timers run, so that an abort is heard.
    const steps = Math.min(effort.steps, laid?.steps ?? effort.steps);
    budget.steps += Math.ceil(steps / STEPS_A_STEP) - 1;
    await budget.step();
    const worth = filled === undefined ? 0 : worthOf(filled.counts, worths.plates);
    const gain = worth > shape.price * (1 + 1e-9);
    if (gain && filled !== undefined) pool.add(shape, filled);
    if (other && worth < HOPELESS * shape.price) others.splice(others.indexOf(shape), 1);
    idle = gain || tried < LONGEST_TRY ? 0 : idle + 1;
    tried = Math.min(LONGEST_TRY, tried * LONGER);
  }
}

/** True when the effort allows more than the constructive packer and the tables of the guided search, and there is a sheet for it. */
export function worthGuiding(maker: GuidedMaker, shapes: readonly StockShape[], most: number): boolean {
  if (most < LEAST_EFFORT) return false;
  const [main] = targetsOf(shapes, maker);
  return main !== undefined && maker.pairs(main) < TABLES * most;
}

/** Shapes of which any number can be had, if there are such, cheapest for their area first. */
export function targetsOf(shapes: readonly StockShape[], maker: GuidedMaker): StockShape[] {
  const endless = shapes.filter(isEndless);
  const few = (shape: StockShape): boolean =>
    maker.limits(shape).reduce((sum, count) => sum + count, 0) <= MOST_PLATES;
  return (endless.length > 0 ? endless : shapes)
    .filter(few)
    .toSorted((a, b) => a.price / a.along.area - b.price / b.along.area || a.index - b.index);
}

/**
 * Lays the plates worth most that take no more than a share of the sheet; with the share to propose next. Undefined when
 * no such plates are worth the sheet, or it is none that can be laid so.
 */
async function laidOnStrip(
  maker: GuidedMaker,
  shape: StockShape,
  { plates }: Worths,
  { capacities, because }: Measure,
  fullness: number,
  effort: Try,
  solver: Solver,
): Promise<{ filled: FilledSheet | undefined; fullness: number; steps: number } | undefined> {
  const weights = maker.plates(shape).map((plate) => plate.taken);
  const limits = maker.limits(shape);
  let found: { readonly counts: readonly number[] } | undefined;
  let share = fullness;
  for (; share <= 1; share *= RISE) {
    const taken = { weights, capacities: capacities.map((capacity) => capacity * share), because };
    found = await worthiestCounts([taken], shape.index, plates, limits, solver, NODES);
    if (found === undefined || worthOf(found.counts, plates) > shape.price * (1 + 1e-9)) break;
  }
  if (found === undefined || share > 1) return undefined;
  const stretched = await maker.stretched(shape, found.counts, effort, plates);
  if (stretched === undefined) return undefined;
  const { filled, length, steps } = stretched;
  if (length <= 1) return { filled, fullness: Math.min(1, share * FULLER), steps };
  const reached = worthOf(found.counts, weights) / capacities[shape.index] / length;
  return { filled, fullness: (share + Math.min(share, reached)) / 2, steps };
}
