import type { FilledSheet } from "../sheets/fill.js";
import type { StockShape } from "./shapes.js";

/** Plates laid on one shape of stock: what may be cut any number of times. */
export interface SheetLayout {
  readonly shape: StockShape;
  readonly filled: FilledSheet;
  /** Copies of each kind. */
  readonly counts: readonly number[];
}

/** A layout and how often it is cut. */
export interface Cut {
  readonly layout: SheetLayout;
  readonly times: number;
}

/** The layouts found so far, without those that another one beats: same shape, and no fewer copies of any kind. */
export class LayoutPool {
  private held: SheetLayout[] = [];

  get layouts(): readonly SheetLayout[] {
    return this.held;
  }

  /** False when the layout is no gain. */
  add(shape: StockShape, filled: FilledSheet): boolean {
    const { counts } = filled;
    if (counts.every((count) => count === 0)) return false;
    const same = (other: SheetLayout): boolean => other.shape === shape;
    if (this.held.some((other) => same(other) && covers(other.counts, counts))) return false;
    this.held = this.held.filter((other) => !same(other) || !covers(counts, other.counts));
    this.held.push({ shape, filled, counts });
    return true;
  }
}

function covers(a: readonly number[], b: readonly number[]): boolean {
  return a.every((count, kind) => count >= (b[kind] as number));
}
