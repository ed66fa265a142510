import type { Tier } from "../purchase.js";

/** One length a bar or pipe is sold in, or lies at hand. */
export interface LengthStock {
  /** mm */
  readonly length: number;
  readonly tiers: readonly Tier[];
  /** Whole lengths already owned, at no cost. */
  readonly atHand: number;
  /** Lengths that can be bought; as many as needed when absent. */
  readonly available?: number;
}

/** Pieces to be sawn from stock lengths. All lengths mm. */
export interface LengthProblem {
  readonly pieces: readonly { readonly length: number; readonly count: number }[];
  readonly stock: readonly LengthStock[];
  /** Length one saw cut takes. The last piece of a bar needs no cut after it when it ends within one kerf of the end. */
  readonly kerf: number;
}

/** One way a bar is sawn, `times` times. */
export interface Bar {
  /** Index into the problem's stock. */
  readonly stock: number;
  readonly times: number;
  /** Pieces from one bar, longest first. */
  readonly cuts: readonly { readonly length: number; readonly count: number }[];
  /** What is left of one bar after the last cut, mm. */
  readonly rest: number;
}

/** How sure the plan is the cheapest. */
export type Proof =
  /** It meets a lower bound worked out apart from the search. */
  | "bound"
  /** All ways to saw a bar were listed and the branch-and-bound search over them ended. */
  | "search"
  /** Neither; `bound` tells how far off it can be. */
  | "none";

export interface LengthPlan {
  readonly bars: readonly Bar[];
  /** Per stock entry, in order. */
  readonly use: readonly LengthPurchase[];
  /** No plan takes fewer bars (one stock length) or costs less (several). */
  readonly bound: number;
  readonly boundIs: "bars" | "money";
  readonly proof: Proof;
}

export interface LengthPurchase {
  readonly length: number;
  /** Bars sawn. */
  readonly used: number;
  readonly atHand: number;
  readonly bought: number;
  /** Price of one at this quantity; absent when none is bought. */
  readonly each?: number;
  /** Fewer would do and cost more. */
  readonly dearer?: { readonly packs: number; readonly each: number };
}
