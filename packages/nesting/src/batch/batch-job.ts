import type { NestJob, NestPart, Sheet, Stock, Unplaced } from "../job.js";
import type { LeastRest } from "../rest.js";
import type { Solver } from "./solver.js";

/** Price of one piece from a quantity on; it holds for the whole quantity bought. */
export interface PriceTier {
  readonly from: number;
  readonly each: number;
}

/** Stock with prices by quantity. */
export interface BatchStock extends Stock {
  /** The price is the highest: further pieces cost less, in a way that tiers cannot say. Then no plan is called cheapest. */
  readonly fallsFurther?: boolean;
  /**
   * Ascending; the first tier's `from` is the least quantity sold. When absent any quantity costs `cost` a piece.
   * Pieces at hand have none and a cost of 0.
   */
  readonly tiers?: readonly PriceTier[];
}

/** One kind of plate of which many copies are wanted. */
export interface BatchPart extends NestPart {
  /**
   * Copies in one kit. Layouts are sought for this mix, so that they do not depend on the number of kits. When absent
   * the mix is that of the demands.
   */
  readonly perKit?: number;
}

/** Many copies of a few kinds of plates, all of the same material and thickness. */
export interface BatchJob extends Omit<NestJob, "parts" | "stock"> {
  readonly parts: readonly BatchPart[];
  readonly stock: readonly BatchStock[];
  /** How many more copies of a kind may be made than are wanted, percent of its demand, rounded down; 0 when absent. */
  readonly surplusPercent?: number;
  /** Cost of handling one sheet beside its price, in the unit of prices; 0 when absent. */
  readonly costPerSheet?: number;
  /** Cost of preparing one distinct layout, in the unit of prices; 0 when absent. */
  readonly costPerLayout?: number;
  /** What rests are worth that are kept for another job; nothing when absent. */
  readonly rests?: RestWorth;
  /** Most distinct layouts; no limit when absent. */
  readonly maxLayouts?: number;
  /**
   * Sheets of an earlier plan, to go on from: those that still serve are among the layouts to choose from, and cut as often
   * as before they are a plan to beat. See `servingSheets`.
   */
  readonly known?: readonly Sheet[];
}

/** A rest that can be sawn off, see `largestRest`, is worth this percent of the price of its stock, by area. */
export interface RestWorth extends LeastRest {
  /** 0 to 100. */
  readonly percent: number;
}

/** What a caller of `planBatch` lends and hears. */
export interface BatchControl {
  /** Solves linear and integer programmes. Without one the plan is made by a rule, its bound by each measure alone. */
  readonly solver?: Solver;
  readonly signal?: AbortSignal;
  /** Threads beside the calling one: 2, or none when absent. They change how long it takes, not what is found. */
  readonly workers?: number;
  /** Called with the first plan, within seconds; the better ones are those that are returned. */
  readonly onProgress?: (best: BatchPlan) => void;
}

/** Pieces of one stock that a plan takes. */
export interface StockUse {
  readonly stock: string;
  readonly used: number;
  /** At least `used`: with tiers, more may cost less. */
  readonly bought: number;
  /** Price of one at this quantity. */
  readonly each: number;
}

/** Copies made beyond the demand. */
export interface Surplus {
  readonly part: string;
  readonly count: number;
}

/** Why no plan can need less: a number, and the argument that gave it. */
export interface Bound {
  readonly value: number;
  /** One sentence that says what was counted. */
  readonly because: string;
}

/** What the plan would be with at most so many layouts. */
export interface TradeRow {
  readonly layouts: number;
  readonly sheets: number;
  readonly cost: number;
  /** Not taken off the cost. */
  readonly restWorth: number;
}

export interface BatchPlan {
  /** Distinct layouts with how often each is cut; one that is cut on two kinds of stock is listed for each. */
  readonly sheets: readonly Sheet[];
  readonly unplaced: readonly Unplaced[];
  readonly surplus: readonly Surplus[];
  readonly use: readonly StockUse[];
  readonly sheetCount: number;
  /** Distinct layouts, whatever piece of stock they are cut from. */
  readonly layoutCount: number;
  /** Price of the stock bought, sheets handled and layouts prepared. */
  readonly cost: number;
  /**
   * Worth of the rests and of the whole sheets that are left over, not taken off the cost; 0 where the job gives them
   * none. A plan that costs more than another and leaves rests that are worth the difference is preferred to it.
   */
  readonly restWorth: number;
  /** Net area of the plates over the area of the sheets used, 0..1. */
  readonly yield: number;
  /** No plan for the demand uses fewer sheets of this stock. */
  readonly leastSheets: Bound;
  /** No plan for the demand costs less. */
  readonly leastCost: Bound;
  /** The cost meets its bound. */
  readonly optimal: boolean;
  /** False when `maxLayouts` could not be kept. */
  readonly withinMaxLayouts: boolean;
  /** Fewer layouts against more sheets, fewest layouts first; the plan's own row is among them. */
  readonly trade: readonly TradeRow[];
  /** Search steps done, for a repeatable rerun. */
  readonly steps: number;
}
