import type { JobWish } from "../job/job.js";
import { effortSeconds, kitsNumber, layoutsNumber, seedNumber, sparesPercent } from "./numbers.js";
import type { SearchOptions } from "./options.js";

/** Checks the options that say how much to make and how hard to search. Throws InputError. */
export function jobWish(options: SearchOptions): JobWish {
  return { kits: kitsNumber(options.kits), ...searchWish(options) };
}

/** The same without the number of kits. */
export function searchWish(options: SearchOptions): Omit<JobWish, "kits"> {
  const seconds = effortSeconds(options.effort);
  const maxLayouts = layoutsNumber(options.maxLayouts);
  return {
    sparesPercent: sparesPercent(options.spares),
    search: {
      seed: seedNumber(options.seed),
      ...(seconds === undefined ? {} : { seconds }),
      ...(maxLayouts === undefined ? {} : { maxLayouts }),
    },
  };
}
