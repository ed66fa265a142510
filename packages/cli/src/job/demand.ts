import type { Plate } from "@keelcut/geometry";
import type { BatchPlan } from "@keelcut/nesting";
import { withScrap, withSpares } from "../cost/index.js";
import type { StockList } from "../input/stock-list.js";

/** How many kits, how many spare plates beside, and how many that are spoiled. */
export interface Quantity {
  readonly kits: number;
  /** Percent of the plates of all kits, rounded up for each plate. */
  readonly sparesPercent: number;
  /** Least spares of each plate; none when absent. */
  readonly leastSpares?: number | undefined;
  /** Percent of the cut plates that are spoiled; none when absent. */
  readonly scrapPercent?: number | undefined;
}

/** The quantity a stock list's rules for selling ask for; `sparesPercent` overrides its own. */
export function quantityOf(
  kits: number,
  { spares, scrapPercent }: StockList["selling"],
  sparesPercent: number | undefined,
): Quantity {
  return {
    kits,
    sparesPercent: sparesPercent ?? spares.plates,
    leastSpares: spares.least.plates,
    scrapPercent,
  };
}

/** Copies of a plate to cut for all kits, spares and scrap. */
export function demandOf(plate: Pick<Plate, "count">, quantity: Quantity): number {
  const { kits, sparesPercent, leastSpares = 0, scrapPercent = 0 } = quantity;
  return withScrap(withSpares(plate.count * kits, sparesPercent, leastSpares), scrapPercent);
}

/** Copies of a plate that plans make beyond what was asked for. */
export function surplusOf(
  { id }: Pick<Plate, "id">,
  groups: readonly { readonly plan?: BatchPlan }[],
): number {
  const surplus = groups.flatMap(({ plan }) => plan?.surplus ?? []);
  return surplus.reduce((sum, { part, count }) => sum + (part === id ? count : 0), 0);
}
