import type { Budget } from "../budget.js";
import { type Random, randomIndex, seededRandom } from "../random.js";
import { construct, type Plan } from "../sheets/construct.js";
import { type FilledSheet, fillInOrder, type Manner, type Pace } from "../sheets/fill.js";
import type { PlateKind } from "../sheets/kind.js";
import { drawn, firstPlans } from "../sheets/plans.js";
import type { Setup } from "../sheets/prepare.js";
import type { LayoutPool, SheetLayout } from "./pool.js";
import { availableOf, type StockShape } from "./shapes.js";

/** How a shape is filled: along or across, and which places and attitudes are liked. */
interface Way {
  readonly manner: Manner;
  readonly across: boolean;
}

/**
 * Makes layouts with the sheet packer. What it makes depends on the mix of a kit, the stock, the seed and the steps, but
 * not on the number of kits: so does its cost, and so a plan for more kits draws on the same layouts as one for fewer.
 */
export class LayoutMaker {
  private readonly setup: Setup;
  private readonly shapes: readonly StockShape[];
  private readonly mix: readonly number[];
  private readonly budget: Budget;
  private readonly random: Random;
  private readonly ways: readonly Way[];
  private readonly plans: readonly Plan[];
  /** What `tightest` found before. */
  private readonly tight = new Map<string, FilledSheet | undefined>();

  constructor(setup: Setup, shapes: readonly StockShape[], mix: readonly number[], budget: Budget) {
    this.setup = setup;
    this.shapes = shapes;
    this.mix = mix;
    this.budget = budget;
    this.random = seededRandom(setup.job.seed);
    this.plans = firstPlans(setup);
    const [first] = this.plans;
    this.ways = this.plans.filter((plan) => plan.order === first?.order);
  }

  /** Ways in which `sequence` can lay plates. */
  get planCount(): number {
    return this.plans.length;
  }

  /** Net area of so many copies of each kind, mm2. */
  netArea(counts: readonly number[]): number {
    return this.setup.kinds.reduce((sum, kind) => sum + (counts[kind.index] as number) * kind.area, 0);
  }

  /** Layouts of one kind and the rest behind it, and those of one kit: with these every demand can be met in some way. */
  async first(pool: LayoutPool): Promise<void> {
    await this.sequence(pool, 1, 0, NEVER);
    for (const shape of this.shapes) {
      for (const { index } of this.setup.kinds) {
        if (this.mix[index] === 0 || !shape.holds.has(index)) continue;
        const order = this.ordered(shape, (kind) => (kind.index === index ? Infinity : kind.grossArea));
        const filled = await this.fill(shape, order, this.caps(shape, false), this.ways[0] as Way, NEVER);
        if (filled !== undefined) pool.add(shape, filled);
      }
    }
  }

  /** The sheets of as many whole kits as given, laid one sheet after another. */
  async sequence(pool: LayoutPool, kits: number, plan: number, pace: Pace): Promise<void> {
    const { setup } = this;
    const way = this.plans[plan];
    if (way === undefined || pace.stop()) return;
    const had = new Map(setup.stock.map((kind) => [kind, availableOf(kind.stock)]));
    const left = this.mix.map((count) => count * kits);
    const order = withCopies(way.order, left);
    const layout = await construct(setup, { left, had }, { ...way, order }, this.budget, pace);
    for (const sheet of layout?.sheets ?? []) {
      const shape = this.shapes.find((each) => each.pieces.includes(sheet.stock));
      if (shape !== undefined) pool.add(shape, sheet);
    }
  }

  /** On each shape the most whole kits found to have room on one sheet. */
  async wholeKits(pool: LayoutPool, pace: Pace): Promise<void> {
    const area = (counts: readonly number[]): number =>
      this.setup.kinds.reduce((sum, kind) => sum + (counts[kind.index] as number) * kind.grossArea, 0);
    const kitArea = area(this.mix);
    for (const shape of this.shapes) {
      if (this.mix.some((count, kind) => count > 0 && !shape.holds.has(kind))) continue;
      let kits = Math.floor(shape.along.area / kitArea);
      while (kits >= 1 && !pace.stop()) {
        const most = await this.mostOf(pool, shape, kits, area, pace);
        if (most >= kits * kitArea * (1 - 1e-9)) break;
        kits = Math.min(kits - 1, Math.floor(most / kitArea));
      }
    }
  }

  /** On each shape plates in the proportions of the mix, whole or not: with one such layout alone a demand can be met. */
  async balanced(pool: LayoutPool, pace: Pace): Promise<void> {
    const kitArea = this.grossArea(this.mix);
    for (const shape of this.shapes) {
      if (this.mix.some((count, kind) => count > 0 && !shape.holds.has(kind))) continue;
      let kits = shape.along.area / kitArea;
      for (let attempt = 0; attempt < BALANCE_ATTEMPTS && !pace.stop(); attempt++) {
        const counts = this.mix.map((count) => (count === 0 ? 0 : Math.max(1, Math.round(count * kits))));
        const plan = this.plans[attempt % this.plans.length] as Plan;
        const filled = await this.fill(shape, withCopies(plan.order, counts), counts, plan, pace);
        if (filled === undefined) return;
        pool.add(shape, filled);
        if (filled.counts.every((count, kind) => count === counts[kind])) break;
        const share = this.grossArea(filled.counts) / this.grossArea(counts);
        kits *= Math.min(LESS, share);
      }
    }
  }

  private grossArea(counts: readonly number[]): number {
    return this.setup.kinds.reduce((sum, kind) => sum + (counts[kind.index] as number) * kind.grossArea, 0);
  }

  /** Lays so many kits on one sheet in a few ways; the most area that found room, ending early when all did. */
  private async mostOf(
    pool: LayoutPool,
    shape: StockShape,
    kits: number,
    area: (counts: readonly number[]) => number,
    pace: Pace,
  ): Promise<number> {
    const left = this.mix.map((count) => count * kits);
    let most = 0;
    for (let way = 0; way < this.plans.length; way += Math.ceil(this.plans.length / KIT_WAYS)) {
      const plan = this.plans[way] as Plan;
      const filled = await this.fill(shape, withCopies(plan.order, left), left, plan, pace);
      if (filled === undefined) break;
      pool.add(shape, filled);
      most = Math.max(most, area(filled.counts));
      if (filled.counts.every((count, kind) => count === left[kind])) break;
    }
    return most;
  }

  /**
   * Tries a few layouts of plates that are dear at the given worths, and returns the worthiest found. All worthwhile ones
   * go into the pool.
   */
  async worthy(
    pool: LayoutPool,
    shape: StockShape,
    worths: readonly number[],
    price: number,
    tries: number,
    pace: Pace,
  ): Promise<SheetLayout | undefined> {
    let best: { layout: SheetLayout; worth: number } | undefined;
    for (let attempt = 0; attempt < tries; attempt++) {
      const noise = attempt === 0 ? 0 : ([0.3, 0.8, 2][attempt % 3] as number);
      const power = attempt % 2 === 0 ? 1 : 0.5;
      const order = this.ordered(shape, (kind) => {
        const worth = worths[kind.index] as number;
        if (worth <= 0) return -1 / kind.grossArea;
        const rate = worth / kind.grossArea ** power;
        return rate * Math.exp(noise * (this.random() - 0.5));
      });
      const way = attempt === 0 ? (this.ways[0] as Way) : this.way(shape);
      const caps = attempt % 4 === 3 ? this.caps(shape, true) : this.caps(shape, false);
      const filled = await this.fill(shape, order, caps, way, pace);
      if (filled === undefined) break;
      const worth = worthOf(filled.counts, worths);
      if (worth > price * (1 + 1e-9)) pool.add(shape, filled);
      if (best === undefined || worth > best.worth) {
        best = { layout: { shape, filled, counts: filled.counts }, worth };
      }
    }
    return best?.layout;
  }

  /**
   * Tries to lay the given plates on a sheet in a few ways, and whatever else finds room behind them, dear plates first.
   * Every result goes into the pool. The largest share of the given plates, by area, that found room.
   */
  async proposed(
    pool: LayoutPool,
    shape: StockShape,
    counts: readonly number[],
    worths: readonly number[],
    tries: number,
    pace: Pace,
  ): Promise<number> {
    const area = (copies: readonly number[]): number =>
      this.setup.kinds.reduce((sum, kind) => sum + (copies[kind.index] as number) * kind.grossArea, 0);
    const behind = this.ordered(shape, (kind) => (worths[kind.index] as number) / kind.grossArea);
    const caps = this.caps(shape, false);
    let most = 0;
    for (let attempt = 0; attempt < tries; attempt++) {
      const noise = attempt === 0 ? 0 : 0.6;
      const sizes = this.setup.kinds.map((kind) => kind.grossArea * (1 + noise * (this.random() - 0.5)));
      const kinds = this.setup.kinds.map(({ index }) => index);
      kinds.sort((a, b) => (sizes[b] as number) - (sizes[a] as number));
      const first = kinds.flatMap((kind) => Array.from({ length: counts[kind] as number }, () => kind));
      const way = attempt === 0 ? (this.ways[0] as Way) : this.way(shape);
      const filled = await this.fill(shape, [...first, ...behind], caps, way, pace);
      if (filled === undefined) break;
      pool.add(shape, filled);
      const kept = filled.counts.map((count, kind) => Math.min(count, counts[kind] as number));
      most = Math.max(most, area(kept) / area(counts));
      if (most >= 1 - 1e-9) break;
    }
    return most;
  }

  /** Most copies of each kind that could lie on a shape by area. */
  limits(shape: StockShape): number[] {
    return this.caps(shape, false);
  }

  /** The same plates on the same shape, in the least of its length that some way finds; undefined when none is found. */
  async tightest(
    shape: StockShape,
    counts: readonly number[],
    tries: number,
  ): Promise<FilledSheet | undefined> {
    const key = `${shape.index}: ${counts.join()}`;
    const known = this.tight.get(key);
    if (known !== undefined || this.tight.has(key)) return known;
    let best: FilledSheet | undefined;
    const wanted = counts.reduce((sum, count) => sum + count, 0);
    for (let way = 0; way < this.plans.length; way += Math.ceil(this.plans.length / tries)) {
      const plan = this.plans[way] as Plan;
      const filled = await this.fill(shape, withCopies(plan.order, counts), counts, plan, NEVER);
      if (filled === undefined || filled.laid.length < wanted) continue;
      if (best === undefined || freeRest(filled) > freeRest(best)) best = filled;
    }
    this.tight.set(key, best);
    return best;
  }

  private way(shape: StockShape): Way {
    if (this.random() < 0.5) return this.ways[randomIndex(this.random, this.ways.length)] as Way;
    const plan = drawn(this.setup, this.caps(shape, true), [], this.random);
    return plan;
  }

  private fill(
    shape: StockShape,
    order: readonly number[],
    caps: readonly number[],
    { manner, across }: Way,
    pace: Pace,
  ): Promise<FilledSheet | undefined> {
    const model = across ? shape.across : shape.along;
    return fillInOrder(model, this.setup.kinds, order, caps, manner, this.budget, pace);
  }

  /** Most copies of each kind worth trying: what its area and its share of the mix allow, and when `balanced` a random number of kits' worth. */
  private caps(shape: StockShape, balanced: boolean): number[] {
    const kits = 1 + randomIndex(this.random, 12);
    const kitArea = this.grossArea(this.mix);
    return this.setup.kinds.map((kind) => {
      const wanted = this.mix[kind.index] as number;
      if (wanted === 0 || !shape.holds.has(kind.index)) return 0;
      const share = Math.ceil((RICH * wanted * shape.along.area) / kitArea);
      const most = Math.min(Math.max(1, Math.floor(shape.along.area / kind.area)), Math.max(FEW, share));
      return balanced ? Math.min(most, wanted * kits) : most;
    });
  }

  /** Copies of every kind that the shape holds, the highest measure first. */
  private ordered(shape: StockShape, measure: (kind: PlateKind) => number): number[] {
    const caps = this.caps(shape, false);
    return this.setup.kinds
      .map((kind) => ({ index: kind.index, measure: measure(kind) }))
      .sort((a, b) => b.measure - a.measure || a.index - b.index)
      .flatMap(({ index }) => Array.from({ length: caps[index] as number }, () => index));
  }
}

/** A sheet rich in a kind has so many times its share of the mix; thousands of tiny plates would take all the effort. */
const RICH = 2;
const FEW = 40;

/** Fillings in the proportions of the mix tried on a shape, each with at most this share of the one before. */
const BALANCE_ATTEMPTS = 12;
const LESS = 0.98;

/** Ways tried to lay a number of whole kits on one sheet. */
const KIT_WAYS = 8;

const NEVER: Pace = { stop: () => false, hasty: () => false };

/** The kinds of an order in the order of their first copies, each as often as given. */
function withCopies(order: readonly number[], counts: readonly number[]): number[] {
  const kinds = [...new Set(order)];
  return kinds.flatMap((kind) => Array.from({ length: counts[kind] ?? 0 }, () => kind));
}

export function worthOf(counts: readonly number[], worths: readonly number[]): number {
  return counts.reduce((sum, count, kind) => sum + count * (worths[kind] as number), 0);
}

/** Area of the rectangle beyond the last plate, mm2. */
function freeRest({ model, used }: FilledSheet): number {
  const { minX, maxX, minY, maxY } = model.limits;
  return Math.max(0, maxX - minX - used) * (maxY - minY);
}
