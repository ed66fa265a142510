import type { Instance } from "../search/instance.js";
import { canTakeUp, hasLost, RACE } from "./race.js";
import { improveStrip, newStripSearch } from "./strip-search.js";
import type { StripLayout, StripSearch } from "./strip-state.js";

/** What a stream needs to begin; can be sent to a worker, the large arrays of the instance being shared. */
export interface StreamPlan {
  readonly instance: Instance;
  /** The same items for the other engine, when another stream runs that and the two race. */
  readonly rival?: Instance | undefined;
  readonly height: number;
  readonly seed: number;
  /** Placement searches this stream may do; Infinity when time decides. */
  readonly steps: number;
  /** Seconds of its own work this stream may take; Infinity when steps decide. */
  readonly seconds: number;
}

/** "Go on until this part of the effort is spent", with the best layout of the others. */
export interface StreamOrder {
  readonly until: number;
  readonly offered: StripLayout | undefined;
}

export interface StreamReport {
  readonly best: StripLayout;
  readonly steps: number;
  readonly evaluations: number;
  readonly finished: boolean;
}

/**
 * One stream of search: a seed, a clock, and a place to stop at.
 *
 * A stream stops only between sweeps and only where the effort it has spent says so; so with steps for effort what it
 * does between two orders depends on nothing but seed and orders, wherever it runs.
 */
export interface Stream {
  /** Works until the order is fulfilled or, when `slice` milliseconds are up, returns undefined and can be called again. */
  work(order: StreamOrder, slice: number): StreamReport | undefined;
}

export function newStream(plan: StreamPlan): Stream {
  let worked = 0;
  let began = performance.now();
  const progress = (): number =>
    Math.max(strip.search.steps / plan.steps, (worked + performance.now() - began) / (1000 * plan.seconds));
  let strip: StripSearch = newStripSearch(plan.instance, plan.height, plan.seed, progress);
  worked += performance.now() - began;
  let course = improveStrip(strip);
  let finished = false;
  let rival = plan.rival;
  const takeOver = ({ until, offered }: StreamOrder): void => {
    if (rival !== undefined && until <= RACE) return;
    if (rival !== undefined && offered !== undefined && hasLost(strip, offered)) {
      strip = continued(strip, rival, plan, progress, offered);
      course = improveStrip(strip);
      // What one engine could not shorten further the other perhaps can.
      finished = false;
    }
    rival = undefined;
    strip.offered = offered !== undefined && canTakeUp(strip, offered) ? offered : undefined;
  };
  const work = (order: StreamOrder, slice: number): StreamReport | undefined => {
    began = performance.now();
    const end = began + slice;
    takeOver(order);
    while (!finished && progress() < order.until) {
      finished = course.next().done === true;
      if (!finished && performance.now() > end) {
        worked += performance.now() - began;
        return undefined;
      }
    }
    worked += performance.now() - began;
    return {
      best: strip.best,
      steps: strip.search.steps,
      evaluations: strip.search.evaluations,
      finished,
    };
  };
  return { work };
}

/** The search gone on with from a layout by the other engine. */
function continued(
  { search }: StripSearch,
  instance: Instance,
  { height, seed }: StreamPlan,
  progress: () => number,
  best: StripLayout,
): StripSearch {
  const strip = newStripSearch(instance, height, seed, progress, best);
  strip.search.steps = search.steps;
  strip.search.evaluations = search.evaluations;
  return strip;
}
