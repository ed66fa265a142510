import { parentPort } from "node:worker_threads";
import { type VariantWish, variantOf } from "./variant.js";
import type { Combination } from "./vary.js";

/** A combination to look at; answered by its variant. */
export interface VariantOrder {
  readonly combination: Combination;
  readonly wish: VariantWish;
}

const silent = { stage: () => undefined, detail: () => undefined, end: () => undefined };

parentPort?.on("message", async ({ combination, wish }: VariantOrder) => {
  parentPort?.postMessage(await variantOf(combination, wish, silent, new AbortController().signal));
});
