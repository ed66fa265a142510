import type { ModelRow, ModelVariable } from "@keelcut/nesting";
import { cheapestPurchase, type Tier, tierPrice } from "../purchase.js";
import { solveModel } from "./linear-model.js";
import { firstFit, maximalPatterns, type Pattern, worthiestPattern } from "./patterns.js";

/** A cutting problem in whole units: sizes and capacities both hold one saw kerf more than the lengths. */
export interface IntegerProblem {
  /** Descending, all different. */
  readonly sizes: readonly number[];
  readonly demands: readonly number[];
  readonly stock: readonly {
    readonly length: number;
    readonly capacity: number;
    readonly tiers: readonly Tier[];
    readonly atHand: number;
    readonly available: number | undefined;
  }[];
  readonly kerf: number;
}

/** A pattern on one stock length, cut `times` times. */
export interface Column {
  readonly stock: number;
  readonly pattern: Pattern;
  readonly times: number;
}

/** The linear relaxation of a problem: patterns worth using and a lower bound. */
export interface Relaxation {
  readonly candidates: readonly Candidate[];
  /** True when the candidates are all maximal patterns. */
  readonly listed: boolean;
  /** Lower bound of the cost, verified against all patterns. */
  readonly bound: number;
}

export interface ColumnSearch {
  readonly columns: readonly Column[];
  readonly cost: number;
  /** True when all patterns were listed and the integer search ended. */
  readonly searched: boolean;
}

export type Candidate = Omit<Column, "times">;

/** Listing more patterns than this costs more time than generating the useful ones. */
const MOST_PATTERNS = 2500;
const MOST_ROUNDS = 1000;

/** Patterns and a lower bound: all maximal patterns, or those that column generation finds where there are too many. */
export async function relax(problem: IntegerProblem): Promise<Relaxation> {
  const listed = listPatterns(problem);
  const { candidates, worths } = await priced(problem, listed ?? starters(problem), listed === undefined);
  return { candidates, listed: listed !== undefined, bound: verifiedBound(problem, worths) };
}

/** The cheapest bars over the patterns of a relaxation; `undefined` when the stock does not suffice. */
export async function cheapestColumns(
  problem: IntegerProblem,
  { candidates, listed }: Relaxation,
): Promise<ColumnSearch | undefined> {
  const solution = await chooseColumns(problem, candidates);
  return solution && { ...solution, searched: listed && solution.optimal };
}

function listPatterns(problem: IntegerProblem): Candidate[] | undefined {
  const candidates: Candidate[] = [];
  for (const [stock, { capacity }] of problem.stock.entries()) {
    const patterns = maximalPatterns(problem.sizes, problem.demands, capacity, MOST_PATTERNS);
    if (patterns === undefined) return undefined;
    candidates.push(...patterns.map((pattern) => ({ stock, pattern })));
  }
  return candidates.length > MOST_PATTERNS ? undefined : candidates;
}

/** First patterns for column generation: of first-fit, and as many of one kind as fit, on every stock length. */
function starters(problem: IntegerProblem): Candidate[] {
  return problem.stock.flatMap(({ capacity }, stock) => {
    const fitting = problem.demands.map((demand, kind) =>
      (problem.sizes[kind] ?? 0) <= capacity ? demand : 0,
    );
    const single = problem.sizes.flatMap((size, kind) => {
      const count = Math.min(fitting[kind] ?? 0, Math.floor(capacity / size));
      return count === 0 ? [] : [problem.sizes.map((_, other) => (other === kind ? count : 0))];
    });
    const packed = firstFit(problem.sizes, fitting, capacity).map((bar) => bar.pattern);
    return [...packed, ...single].map((pattern) => ({ stock, pattern }));
  });
}

/**
 * The linear relaxation over the candidates at each stock's lowest price; when `generate`, patterns that would lower it are
 * added until there are none. `worths` are the duals: what one piece of each kind costs.
 */
async function priced(
  problem: IntegerProblem,
  start: readonly Candidate[],
  generate: boolean,
): Promise<{ candidates: Candidate[]; worths: number[] }> {
  const candidates = [...start];
  let worths = problem.sizes.map(() => 0);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const solution = await solveModel(...relaxedModel(problem, candidates));
    if (solution === undefined) break;
    worths = problem.sizes.map((_, kind) => Math.max(0, solution.duals[kind] ?? 0));
    if (!generate) break;
    const better = problem.stock.flatMap(({ capacity }, stock) => {
      const price = Math.abs(solution.duals[problem.sizes.length + stock] ?? 0);
      const found = worthiestPattern(problem.sizes, problem.demands, worths, capacity);
      return found.worth > price + 1e-7 * Math.max(1, price) ? [{ stock, pattern: found.pattern }] : [];
    });
    if (better.length === 0) break;
    candidates.push(...better);
  }
  return { candidates, worths };
}

function relaxedModel(
  problem: IntegerProblem,
  candidates: readonly Candidate[],
): [ModelVariable[], ModelRow[]] {
  const kinds = problem.sizes.length;
  const bars = candidates.map((candidate) => barVariable(candidate, kinds, "continuous"));
  const bought = problem.stock.map(
    (stock, index): ModelVariable => ({
      cost: lowestPrice(stock.tiers),
      kind: "continuous",
      column: new Map([[kinds + index, -1]]),
    }),
  );
  return [[...bars, ...bought], commonRows(problem)];
}

/** Rows every model starts with: enough pieces of each kind; no more bars of a stock than at hand and bought. */
function commonRows(problem: IntegerProblem): ModelRow[] {
  return [
    ...problem.demands.map((demand): ModelRow => ({ sense: ">=", limit: demand })),
    ...problem.stock.map((stock): ModelRow => ({ sense: "<=", limit: stock.atHand })),
  ];
}

function barVariable(candidate: Candidate, kinds: number, kind: ModelVariable["kind"]): ModelVariable {
  const column = new Map(candidate.pattern.map((count, row) => [row, count] as const));
  return { cost: 0, kind, column: column.set(kinds + candidate.stock, 1) };
}

/**
 * A lower bound that does not rest on the solver. For any worths y >= 0 of the pieces, let w be the worth of the worthiest
 * pattern of a stock length. Scaled down until no w exceeds that stock's lowest price, the worth of all pieces less the worth
 * of what the bars at hand can carry is a bound (weak duality of the relaxation).
 */
function verifiedBound(problem: IntegerProblem, worths: readonly number[]): number {
  const carried = problem.stock.map(
    ({ capacity }) => worthiestPattern(problem.sizes, problem.demands, worths, capacity).worth,
  );
  const scale = Math.min(
    1,
    ...problem.stock.map((stock, index) => {
      const worth = carried[index] ?? 0;
      return worth > 0 ? lowestPrice(stock.tiers) / worth : 1;
    }),
  );
  const wanted = problem.demands.reduce((sum, demand, kind) => sum + demand * (worths[kind] ?? 0), 0);
  const free = problem.stock.reduce((sum, stock, index) => sum + stock.atHand * (carried[index] ?? 0), 0);
  return Math.max(0, scale * (wanted - free));
}

async function chooseColumns(
  problem: IntegerProblem,
  candidates: readonly Candidate[],
): Promise<{ columns: Column[]; cost: number; optimal: boolean } | undefined> {
  const [variables, rows] = purchaseModel(problem, candidates);
  const cheapest = await solveModel(variables, rows);
  if (cheapest === undefined) return undefined;
  const cost = costOf(problem, candidates, cheapest.values);
  const optimal = cheapest.status === "optimal";
  if (problem.stock.length === 1) return { columns: columnsOf(candidates, cheapest.values), cost, optimal };
  // Of equally cheap plans the one that uses least length: the same model with the cost held and the length as objective.
  const held = new Map(variables.map((variable, index) => [index, variable.cost] as const));
  const thrifty = await solveModel(
    variables.map((variable, index) => {
      const stock = candidates[index]?.stock;
      const column = new Map(variable.column).set(rows.length, held.get(index) ?? 0);
      return { ...variable, cost: stock === undefined ? 0 : (problem.stock[stock]?.length ?? 0), column };
    }),
    [...rows, { sense: "<=", limit: cost + 1e-7 * Math.max(1, cost) }],
  );
  const chosen =
    thrifty === undefined || costOf(problem, candidates, thrifty.values) > cost + 1e-9 ? cheapest : thrifty;
  return { columns: columnsOf(candidates, chosen.values), cost, optimal };
}

/** Bars in whole numbers, and for each tier how many are bought at it: none, or at least the tier's quantity. */
function purchaseModel(
  problem: IntegerProblem,
  candidates: readonly Candidate[],
): [ModelVariable[], ModelRow[]] {
  const kinds = problem.sizes.length;
  const variables = candidates.map((candidate) => barVariable(candidate, kinds, "integer"));
  const rows = commonRows(problem);
  const most = problem.demands.reduce((sum, demand) => sum + demand, 0);
  for (const [index, stock] of problem.stock.entries()) {
    const available = stock.available ?? Number.POSITIVE_INFINITY;
    const single = rows.push({ sense: "<=", limit: 1 }) - 1;
    for (const tier of stock.tiers) {
      const upper = Math.min(available, Math.max(most, tier.from));
      if (upper < tier.from) continue;
      const least = rows.push({ sense: ">=", limit: 0 }) - 1;
      const greatest = rows.push({ sense: "<=", limit: 0 }) - 1;
      const count = new Map([
        [kinds + index, -1],
        [least, 1],
        [greatest, 1],
      ]);
      const used = new Map([
        [single, 1],
        [least, -tier.from],
        [greatest, -upper],
      ]);
      variables.push({ cost: tier.each, kind: "integer", column: count, upper });
      variables.push({ cost: 0, kind: "integer", column: used, upper: 1 });
    }
  }
  return [variables, rows];
}

/** What the bars of an answer really cost, from the data. */
function costOf(
  problem: IntegerProblem,
  candidates: readonly Candidate[],
  values: readonly number[],
): number {
  const used = problem.stock.map(() => 0);
  for (const column of columnsOf(candidates, values))
    used[column.stock] = (used[column.stock] ?? 0) + column.times;
  return problem.stock.reduce((sum, stock, index) => {
    const need = Math.max(0, (used[index] ?? 0) - stock.atHand);
    const limit = stock.available === undefined ? {} : { available: stock.available };
    const line = cheapestPurchase(need, [{ pack: 1, tiers: stock.tiers, ...limit }])?.bought[0];
    return sum + (line === undefined ? Number.POSITIVE_INFINITY : line.packs * line.each);
  }, 0);
}

function columnsOf(candidates: readonly Candidate[], values: readonly number[]): Column[] {
  return candidates.flatMap((candidate, index) => {
    const times = Math.round(values[index] ?? 0);
    return times > 0 ? [{ ...candidate, times }] : [];
  });
}

function lowestPrice(tiers: readonly Tier[]): number {
  return tierPrice(tiers, Number.POSITIVE_INFINITY);
}
