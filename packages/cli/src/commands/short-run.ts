import { setFlagsFromString } from "node:v8";

/**
 * Tells the engine that this run is over in a fraction of a second: it then optimizes only what really runs often. With its
 * usual budget (66 kB of bytecode per function, V8's `interrupt-budget`) more than a third of such a run goes into compiling
 * code that is hardly used afterwards. A run that lasts longer than expected is optimized a little later, no more.
 */
export function expectShortRun(): void {
  setFlagsFromString("--interrupt-budget=1000000");
}
