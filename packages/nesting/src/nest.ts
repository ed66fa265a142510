import { Budget } from "./budget.js";
import type { NestControl, NestJob, NestResult } from "./job.js";
import { assertJob } from "./job-validation.js";
import { resultOf } from "./result.js";
import { prepare } from "./sheets/prepare.js";
import { searchSheets } from "./sheets/search.js";
import { verify } from "./verify.js";

/**
 * Lays the plates of a job on stock at the least total cost found within the effort.
 *
 * Deterministic by seed and steps; with seconds alone it depends on the machine. An abort, like spent effort, ends the
 * search with the best layout so far; there always is one, because the first is completed. Every result, also those
 * `control.onProgress` hears of, has passed `verify`. Throws `NestJobError` for a job that is not sound.
 */
export async function nest(job: NestJob, control: NestControl = {}): Promise<NestResult> {
  assertJob(job);
  const budget = new Budget(job.effort, control);
  const setup = prepare(job);
  const layout = await searchSheets(setup, budget, (improved) => {
    if (control.onProgress) control.onProgress(checked(job, resultOf(setup, improved, budget.steps)));
  });
  return checked(job, resultOf(setup, layout, budget.steps));
}

function checked(job: NestJob, result: NestResult): NestResult {
  const [first, ...more] = verify(job, result);
  if (first === undefined) return result;
  const rest = more.length > 0 ? ` (and ${more.length} more)` : "";
  throw new Error(
    `the packer made a layout that must not be cut, which is a bug in it: ${first.message}${rest}`,
  );
}
