import { setFlagsFromString } from "node:v8";

/** Bytecode a function runs, in bytes, before the engine thinks of optimizing it; V8 by itself takes 66 kB. */
const budgets = { "a fraction of a second": 1_000_000, "some seconds": 300_000 } as const;

/**
 * Tells the engine how soon this run will be over: it then optimizes only what really runs often. With its usual budget
 * (V8's `interrupt-budget`) more than a third of a short run goes into compiling code that is hardly used afterwards. A
 * run that lasts longer than expected is optimized a little later, no more.
 */
export function expectRunOf(duration: keyof typeof budgets): void {
  setFlagsFromString(`--interrupt-budget=${budgets[duration]}`);
}
