import { readEarlierPlan } from "../job/earlier-plan.js";
import type { JobWish } from "../job/job.js";
import {
  effortSeconds,
  kitsNumber,
  layoutsNumber,
  seedNumber,
  sparesPercent,
  surplusPercent,
} from "./numbers.js";
import type { ResumeOptions, SearchOptions } from "./options.js";

/** Checks the options that say how much to make and how hard to search. Throws InputError. */
export function jobWish(options: SearchOptions): JobWish {
  return { kits: kitsNumber(options.kits), ...searchWish(options) };
}

/** The same with the earlier job to go on from, if one is named. Throws InputError. */
export async function resumedWish(options: SearchOptions & ResumeOptions, cwd: string): Promise<JobWish> {
  return { ...jobWish(options), ...(await earlierPlan(options, cwd)) };
}

/** The earlier job to go on from, if one is named. Throws InputError. */
export async function earlierPlan({ resume }: ResumeOptions, cwd: string): Promise<Pick<JobWish, "earlier">> {
  return resume === undefined ? {} : { earlier: await readEarlierPlan(resume, cwd) };
}

/** The same without the number of kits. */
export function searchWish(options: SearchOptions): Omit<JobWish, "kits"> {
  const seconds = effortSeconds(options.effort);
  const maxLayouts = layoutsNumber(options.maxLayouts);
  const surplus = surplusPercent(options.surplus);
  return {
    sparesPercent: sparesPercent(options.spares),
    search: {
      seed: seedNumber(options.seed),
      ...(seconds === undefined ? {} : { seconds }),
      ...(maxLayouts === undefined ? {} : { maxLayouts }),
      ...(surplus === undefined ? {} : { surplusPercent: surplus }),
    },
  };
}
