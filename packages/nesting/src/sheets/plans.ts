import type { Turn } from "../nofit/polygon.js";
import { type Random, randomIndex } from "../random.js";
import type { Plan } from "./construct.js";
import type { PlateKind } from "./kind.js";
import type { Taste } from "./place.js";
import type { Setup } from "./prepare.js";

const TASTES: readonly Taste[] = [
  { edge: 1, low: 1e-3 },
  { edge: 0.5, low: 1e-3 },
  { edge: 0, low: 1e-3 },
  { edge: 1, low: 0.1 },
  { edge: 1, low: 1e-3, snug: true },
  { edge: 0.5, low: 1e-3, snug: true },
  { edge: 1, low: -1e-3 },
  { edge: 0.5, low: -0.1 },
];

/** Attitudes beyond the usual ones that a varied plan tries for each kind. */
const MORE_TURNS = 6;

/** The plans tried first: large plates first by three measures, with each taste, along and across the sheet. */
export function firstPlans(setup: Setup): Plan[] {
  const orders = MEASURES.map((measure) => orderBy(setup, measure));
  if (setup.kinds.some((kind) => kind.part.value !== undefined)) {
    orders.unshift(orderBy(setup, (kind) => (kind.part.value ?? kind.area) / kind.area));
  }
  const turns = setup.kinds.map((kind) => kind.usual);
  const lean = setup.job.stock.map(() => 1);
  const plans: Plan[] = [];
  for (const across of [false, true]) {
    for (const taste of TASTES) {
      for (const order of orders)
        plans.push({ manner: { tastes: setup.kinds.map(() => taste), turns }, order, across, lean });
    }
  }
  // One of each sort early: a short search should have seen the extremes.
  return plans.sort((a, b) => orders.indexOf(a.order as number[]) - orders.indexOf(b.order as number[]));
}

/**
 * A plan of its own for the given copies: large plates first, more or less, everything else by lot. The noise is drawn
 * per copy or per kind, since sometimes equal plates should stay together.
 */
export function drawn(
  setup: Setup,
  counts: readonly number[],
  lean: readonly number[],
  random: Random,
): Plan {
  const measure = MEASURES[randomIndex(random, MEASURES.length)];
  const noise = NOISES[randomIndex(random, NOISES.length)];
  const apart = random() < 0.5;
  const copies: { kind: number; size: number }[] = [];
  for (const kind of setup.kinds) {
    const size = measure(kind);
    let factor = 1 + noise * (random() - 0.5);
    for (let copy = 0; copy < (counts[kind.index] ?? 0); copy++) {
      if (apart) factor = 1 + noise * (random() - 0.5);
      copies.push({ kind: kind.index, size: size * factor });
    }
  }
  copies.sort((a, b) => b.size - a.size);
  return {
    manner: {
      tastes: someTastes(setup, random),
      turns: setup.kinds.map((kind) => someTurns(kind, random)),
    },
    order: copies.map(({ kind }) => kind),
    across: random() < 0.4,
    lean: random() < 0.7 ? lean.map(() => 1) : lean.map(() => 0.7 + 0.6 * random()),
  };
}

type Measure = (kind: PlateKind) => number;

const MEASURES: readonly Measure[] = [
  (kind) => kind.grossArea,
  (kind) => kind.longest,
  (kind) => kind.longest * kind.longest + kind.grossArea,
];
const NOISES: readonly number[] = [0.2, 0.6, 1.2];

/** The plan changed in one respect, now and then in two. */
export function varied(setup: Setup, plan: Plan, random: Random): Plan {
  const changed = change(setup, plan, random);
  return random() < 0.3 ? change(setup, changed, random) : changed;
}

function change(setup: Setup, plan: Plan, random: Random): Plan {
  const choice = random();
  if (choice < 0.45) return { ...plan, order: swapped(plan.order, random) };
  if (choice < 0.65) return { ...plan, order: shifted(plan.order, random) };
  if (choice < 0.8) {
    const tastes = random() < 0.3 ? someTastes(setup, random) : retasted(plan.manner.tastes, random);
    return { ...plan, manner: { ...plan.manner, tastes } };
  }
  if (choice < 0.9) {
    const turns = setup.kinds.map((kind) => someTurns(kind, random));
    return { ...plan, manner: { ...plan.manner, turns } };
  }
  if (choice < 0.95 || setup.stock.length < 2) return { ...plan, across: !plan.across };
  return { ...plan, lean: plan.lean.map(() => 0.7 + 0.6 * random()) };
}

function someTastes(setup: Setup, random: Random): Taste[] {
  const taste = TASTES[randomIndex(random, TASTES.length)];
  if (random() < 0.5) return setup.kinds.map(() => taste);
  return setup.kinds.map(() => TASTES[randomIndex(random, TASTES.length)]);
}

function retasted(tastes: readonly Taste[], random: Random): Taste[] {
  const changed = randomIndex(random, tastes.length);
  const taste = TASTES[randomIndex(random, TASTES.length)];
  return tastes.map((old, kind) => (kind === changed ? taste : old));
}

/** The usual attitudes, or these and a few of the others. */
function someTurns(kind: PlateKind, random: Random): readonly Turn[] {
  if (kind.all.length === kind.usual.length || random() < 0.3) return kind.usual;
  const others = kind.all.filter((turn) => !kind.usual.includes(turn));
  const chosen = [...kind.usual];
  for (let k = 0; k < MORE_TURNS && others.length > 0; k++) {
    chosen.push(...others.splice(randomIndex(random, others.length), 1));
  }
  return chosen;
}

/** Exchanges two different kinds' places; nearby ones more often than not. */
function swapped(order: readonly number[], random: Random): readonly number[] {
  if (order.length < 2) return order;
  const result = [...order];
  for (let attempt = 0; attempt < 20; attempt++) {
    const a = randomIndex(random, result.length);
    const b = randomIndex(random, result.length);
    const [kindA, kindB] = [result[a], result[b]];
    if (kindA === kindB) continue;
    result[a] = kindB;
    result[b] = kindA;
    break;
  }
  return result;
}

/** Takes one copy out and puts it somewhere else. */
function shifted(order: readonly number[], random: Random): readonly number[] {
  if (order.length < 2) return order;
  const result = [...order];
  const [taken] = result.splice(randomIndex(random, result.length), 1);
  result.splice(randomIndex(random, result.length + 1), 0, taken as number);
  return result;
}

function orderBy(setup: Setup, measure: Measure): number[] {
  const sorted = [...setup.kinds].sort((a, b) => measure(b) - measure(a) || a.index - b.index);
  return sorted.flatMap((kind) => Array.from({ length: kind.part.demand }, () => kind.index));
}
