import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import type { Progress } from "../screen/progress.js";
import { type JudgedVariant, type VariantWish, variantOf } from "./variant.js";
import type { VariantOrder } from "./variant-worker.js";
import type { Combination } from "./vary.js";

/** With fewer, starting threads takes longer than they save. */
const fewestForThreads = 16;

/** More threads than this gain little: each warms up by itself. */
const mostThreads = 8;

/**
 * Looks at every combination, in their order, on several threads when there are many. Ends early with those done
 * without a gap when the signal comes.
 */
export async function allVariants(
  combinations: readonly Combination[],
  wish: VariantWish,
  progress: Progress,
  signal: AbortSignal,
): Promise<readonly JudgedVariant[]> {
  const threads = Math.min(availableParallelism(), mostThreads, Math.floor(combinations.length / 8));
  // A search for layouts has threads of its own.
  return wish.nest || threads < 2 || combinations.length < fewestForThreads
    ? inThisThread(combinations, wish, progress, signal)
    : onThreads(threads, combinations, wish, progress, signal);
}

async function inThisThread(
  combinations: readonly Combination[],
  wish: VariantWish,
  progress: Progress,
  signal: AbortSignal,
): Promise<readonly JudgedVariant[]> {
  const variants: JudgedVariant[] = [];
  // Stages inside a variant show as details: the bar counts variants.
  const inner: Progress = { stage: progress.detail, detail: () => undefined, end: () => undefined };
  for (const combination of combinations) {
    if (signal.aborted) break;
    progress.stage(`variant ${variants.length + 1} of ${combinations.length}`);
    variants.push(await variantOf(combination, wish, inner, signal));
  }
  return variants;
}

async function onThreads(
  threads: number,
  combinations: readonly Combination[],
  wish: VariantWish,
  progress: Progress,
  signal: AbortSignal,
): Promise<readonly JudgedVariant[]> {
  const done: (JudgedVariant | undefined)[] = combinations.map(() => undefined);
  let next = 0;
  const workers = Array.from({ length: threads }, () => new Worker(workerAddress()));
  const works = workers.map(async (worker) => {
    for (let index = next++; index < combinations.length && !signal.aborted; index = next++) {
      const combination = combinations[index];
      if (combination === undefined) return;
      progress.stage(`variant ${index + 1} of ${combinations.length}`);
      done[index] = await answerOf(worker, { combination, wish });
    }
  });
  try {
    await Promise.all(works);
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
  const gap = done.indexOf(undefined);
  return done.slice(0, gap < 0 ? done.length : gap).filter((variant) => variant !== undefined);
}

/** From the sources (in tests) the worker is the built file; in a build it lies beside this one. */
function workerAddress(): URL {
  const isSource = import.meta.url.endsWith(".ts");
  return new URL(isSource ? "../../dist/compare/variant-worker.js" : "./variant-worker.js", import.meta.url);
}

/** One order is out at a time, so whatever the thread says next is about it. */
function answerOf(worker: Worker, order: VariantOrder): Promise<JudgedVariant> {
  return new Promise((resolve, reject) => {
    const onEnd = (code: number): void => reject(new Error(`a thread of compare ended with code ${code}`));
    worker.once("error", reject).once("exit", onEnd);
    worker.once("message", (variant: JudgedVariant) => {
      worker.off("error", reject).off("exit", onEnd);
      resolve(variant);
    });
    worker.postMessage(order);
  });
}
