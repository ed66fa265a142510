import { resultOf } from "../result.js";
import type { FilledSheet } from "../sheets/fill.js";
import type { Setup } from "../sheets/prepare.js";
import { verify } from "../verify.js";
import type { StockShape } from "./shapes.js";

/** True when the independent check finds nothing wrong with a layout cut once. */
export function soundLayout(setup: Setup, shape: StockShape, filled: FilledSheet): boolean {
  const [stock] = shape.pieces;
  if (stock === undefined) return false;
  const { job } = setup;
  const parts = job.parts.map((part, kind) => ({ ...part, demand: filled.counts[kind] as number }));
  const own = { ...job, parts, stock: [{ ...stock.stock, available: 1 }] };
  const left = parts.map(() => 0);
  const result = resultOf({ ...setup, job: own }, { sheets: [{ ...filled, stock, times: 1 }], left }, 0);
  return verify(own, result).length === 0;
}
