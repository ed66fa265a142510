import type { NestJob, NestResult } from "../job.js";
import { resultOf } from "../result.js";
import type { LayoutSheet } from "../sheets/construct.js";
import type { Setup, StockKind } from "../sheets/prepare.js";
import { verify } from "../verify.js";
import type { BatchJob, BatchStock, StockUse, Surplus } from "./batch-job.js";
import { type Choice, madeOf, sheetsOf } from "./choice.js";
import { allotted } from "./rest-worth.js";
import { priceAt } from "./shapes.js";

/** A choice in the caller's terms, proved to be cuttable. */
export interface Assembled {
  readonly result: NestResult;
  readonly surplus: readonly Surplus[];
  readonly use: readonly StockUse[];
}

/**
 * Puts every cut on pieces of stock and has the independent check prove the whole: distances, stock and counts, against
 * the demand plus the surplus that is made. Throws when the check refuses it, which is a defect here.
 */
export function assembled(setup: Setup, job: BatchJob, choice: Choice, steps: number): Assembled {
  const use = [...choice.bought]
    .sort(([a], [b]) => a.index - b.index)
    .map(([piece, bought]): [StockKind, number, number] => {
      return [piece, bought, priceAt(job.stock[piece.index] as BatchStock, bought)];
    });
  const priced = new Map(
    use.map(([piece, , each]) => [piece, { ...piece, stock: { ...piece.stock, cost: each } }] as const),
  );
  const sheets = placedOnStock(choice, priced);
  const left = job.parts.map((part, kind) => Math.max(0, part.demand - madeOf(choice.cuts, kind)));
  const result = resultOf(setup, { sheets, left }, steps);
  const surplus = job.parts.flatMap((part, kind): Surplus[] => {
    const count = madeOf(choice.cuts, kind) - part.demand;
    return count > 0 ? [{ part: part.id, count }] : [];
  });
  prove(proofJob(job, surplus, use), result);
  return {
    result,
    surplus,
    use: use.map(([piece, bought, each]) => {
      const used = sheets.filter((sheet) => sheet.stock === priced.get(piece));
      return { stock: piece.stock.id, used: used.reduce((sum, { times }) => sum + times, 0), bought, each };
    }),
  };
}

/** Cheapest pieces first; a layout cut more often than there are pieces of one kind is split between two. */
function placedOnStock(choice: Choice, priced: ReadonlyMap<StockKind, StockKind>): LayoutSheet[] {
  const sheets = allotted(choice.cuts, choice.bought).map(
    ({ layout, piece, times }): LayoutSheet => ({
      ...layout.filled,
      stock: priced.get(piece) as StockKind,
      times,
    }),
  );
  const open = sheetsOf(choice.cuts) - sheets.reduce((sum, { times }) => sum + times, 0);
  if (open > 0) throw new Error(`${open} sheets of a plan have no stock`);
  return sheets;
}

/** The job that asks for the surplus of a plan too: what the plan's layout is checked against. */
export function withSurplus<J extends NestJob>(job: J, surplus: readonly Surplus[]): J {
  const more = new Map(surplus.map(({ part, count }) => [part, count]));
  return {
    ...job,
    parts: job.parts.map((part) => ({ ...part, demand: part.demand + (more.get(part.id) ?? 0) })),
  };
}

function proofJob(
  job: BatchJob,
  surplus: readonly Surplus[],
  use: readonly [StockKind, number, number][],
): NestJob {
  const price = new Map(use.map(([piece, , each]) => [piece.stock.id, each]));
  return {
    ...withSurplus(job, surplus),
    stock: job.stock.map((stock) => ({ ...stock, cost: price.get(stock.id) ?? stock.cost })),
  };
}

function prove(job: NestJob, result: NestResult): void {
  const [first, ...more] = verify(job, result);
  if (first === undefined) return;
  const rest = more.length > 0 ? ` (and ${more.length} more)` : "";
  throw new Error(
    `the planner made a plan that must not be cut, which is a bug in it: ${first.message}${rest}`,
  );
}
