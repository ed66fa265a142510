import type { Measure } from "./measure.js";
import type { ModelRow, ModelVariable, Solver } from "./solver.js";

/** Rounds of column generation; the measure is valid wherever they end. */
const MOST_ROUNDS = 40;

/** Nodes of a knapsack that must be solved to its end. */
const EXACT_NODES = 5000;

/** With more plates than this on a sheet whole numbers hardly matter, and the knapsack gets hard. */
const MOST_PLATES = 14;

/**
 * A measure from all others at once: worths of the plates such that no whole number of plates allowed on a sheet by every
 * measure is worth more than the sheet costs, as far as possible. Found by column generation over such plate numbers
 * (Gilmore and Gomory, Operations Research 9, 1961), whose knapsack is solved exactly, so that the capacities are true
 * whatever the worths are (Farley, Operations Research 38, 1990, from memory). Where the measures describe the layouts exactly, as for
 * bars, this is the bound of the linear programme. Undefined when the solver gives no
 * proved answer, or so many plates lie on a sheet that it is not worth while.
 */
export async function patternMeasure(
  measures: readonly Measure[],
  prices: readonly number[],
  demand: readonly number[],
  solver: Solver,
): Promise<Measure | undefined> {
  const wanted = demand.flatMap((count, kind) => (count > 0 ? [kind] : []));
  if (platesOnSheet(measures, demand) > MOST_PLATES) return undefined;
  const patterns = starters(measures, prices, demand, wanted);
  for (let round = 0; ; round++) {
    const worths = await worthsOf(patterns, demand, wanted, solver);
    if (worths === undefined) return undefined;
    const best: { pattern: Pattern; worth: number }[] = [];
    for (const [shape, price] of prices.entries()) {
      const pattern = await worthiest(measures, shape, price, worths, demand, solver);
      if (pattern === undefined) return undefined;
      const worth = pattern.counts.reduce((sum, count, kind) => sum + count * (worths[kind] as number), 0);
      best.push({ pattern, worth });
    }
    const better = best.filter(({ pattern, worth }) => worth > pattern.price * (1 + 1e-7));
    if (better.length > 0 && round < MOST_ROUNDS) {
      patterns.push(...better.map(({ pattern }) => pattern));
      continue;
    }
    return {
      weights: worths,
      // A capacity must never be too small: the solver rounds by a billionth, and may end a millionth of a weight short.
      capacities: best.map(({ worth }) => worth * (1 + 1e-7) + 2e-6 * Math.max(...worths)),
      because: "whole numbers of plates on each sheet, as area and the other measures allow them together",
    };
  }
}

/** Plates of the mix on the roomiest sheet, at most. */
function platesOnSheet(measures: readonly Measure[], demand: readonly number[]): number {
  const plates = demand.reduce((sum, count) => sum + count, 0);
  const sheets = measures.map(({ weights, capacities }) => {
    const need = weights.reduce((sum, weight, kind) => sum + weight * (demand[kind] as number), 0);
    return need / Math.max(...capacities);
  });
  return plates / Math.max(1, ...sheets);
}

interface Pattern {
  readonly counts: readonly number[];
  readonly price: number;
}

/** As many of one kind as each shape may hold. */
function starters(
  measures: readonly Measure[],
  prices: readonly number[],
  demand: readonly number[],
  wanted: readonly number[],
): Pattern[] {
  return prices.flatMap((price, shape) =>
    wanted.flatMap((kind): Pattern[] => {
      const most = Math.min(
        demand[kind] as number,
        ...measures.map(({ weights, capacities }) => {
          const weight = weights[kind] as number;
          return weight > 0
            ? Math.floor((capacities[shape] as number) / weight + 1e-9)
            : Number.POSITIVE_INFINITY;
        }),
      );
      return most < 1 ? [] : [{ counts: demand.map((_, other) => (other === kind ? most : 0)), price }];
    }),
  );
}

async function worthsOf(
  patterns: readonly Pattern[],
  demand: readonly number[],
  wanted: readonly number[],
  solver: Solver,
): Promise<number[] | undefined> {
  const variables = patterns.map(
    ({ counts, price }): ModelVariable => ({
      cost: price,
      kind: "continuous",
      column: new Map(
        wanted.flatMap((kind, row): [number, number][] => {
          const count = counts[kind] as number;
          return count > 0 ? [[row, count]] : [];
        }),
      ),
    }),
  );
  const rows = wanted.map((kind): ModelRow => ({ sense: ">=", limit: demand[kind] as number }));
  const solution = await solver(variables, rows);
  if (solution?.status !== "optimal") return undefined;
  const worths = demand.map(() => 0);
  wanted.forEach((kind, row) => {
    worths[kind] = Math.max(0, solution.duals[row] as number);
  });
  return worths;
}

/** The most worth that the measures allow on a shape, proved. */
async function worthiest(
  measures: readonly Measure[],
  shape: number,
  price: number,
  worths: readonly number[],
  demand: readonly number[],
  solver: Solver,
): Promise<Pattern | undefined> {
  const found = await worthiestCounts(measures, shape, worths, demand, solver, EXACT_NODES);
  return found?.proved ? { counts: found.counts, price } : undefined;
}

/**
 * Numbers of plates of the most worth among those that every measure allows on a shape, each at most as given: an integer
 * programme, proved when it is solved to its end. Undefined when the solver finds none.
 */
export async function worthiestCounts(
  measures: readonly Measure[],
  shape: number,
  worths: readonly number[],
  most: readonly number[],
  solver: Solver,
  nodes: number,
): Promise<{ counts: readonly number[]; proved: boolean } | undefined> {
  const counts = most.map(() => 0);
  const worthy = most.flatMap((count, kind) => (count > 0 && (worths[kind] as number) > 0 ? [kind] : []));
  if (worthy.length === 0) return { counts, proved: true };
  const scale = Math.max(...worths);
  const used = measures.filter(({ weights, capacities }) => {
    return (capacities[shape] as number) > 0 && worthy.some((kind) => (weights[kind] as number) > 0);
  });
  const rows = used.map((): ModelRow => ({ sense: "<=", limit: 1 + 1e-7 }));
  const variables = worthy.map((kind): ModelVariable => {
    const column = used.flatMap(({ weights, capacities }, row): [number, number][] => {
      const weight = weights[kind] as number;
      return weight > 0 ? [[row, weight / (capacities[shape] as number)]] : [];
    });
    return {
      cost: -(worths[kind] as number) / scale,
      upper: mostOf(measures, kind, shape, most[kind] as number),
      kind: "integer",
      column: new Map(column),
    };
  });
  const solution = await solver(variables, rows, { nodes, gap: 0 });
  if (solution === undefined) return undefined;
  worthy.forEach((kind, index) => {
    counts[kind] = Math.round(solution.values[index] as number);
  });
  return { counts, proved: solution.status === "optimal" };
}

/** None where a measure that counts the plate has no room on the shape at all. */
function mostOf(measures: readonly Measure[], kind: number, shape: number, most: number): number {
  const barred = measures.some(
    ({ weights, capacities }) => (weights[kind] as number) > 0 && (capacities[shape] as number) <= 0,
  );
  return barred ? 0 : most;
}
