import type { Effort } from "../job.js";
import { localHand, workerHand } from "../workers/hands.js";
import { openWorker, type WorkerPort } from "../workers/open-worker.js";
import { type CrewReport, type Hand, workTogether } from "./crew.js";
import { type CompiledStrip, compileStrip } from "./engines.js";
import type { StreamPlan } from "./stream.js";
import type { Strip, StripItem, StripPlacement, StripResult } from "./strip.js";

export interface StripControl {
  /** Called with the best layout so far, always complete and valid, whenever there is a better one. */
  readonly onProgress?: (best: StripResult) => void;
  readonly signal?: AbortSignal;
  /** Threads to use besides the calling one; 2 when absent. With fewer than 2 the calling thread searches. */
  readonly workers?: number;
  /** How a worker is started, when not in the usual way. */
  readonly startWorker?: () => Promise<WorkerPort | undefined>;
}

/** Streams of search, whatever the number of threads, so that the outcome does not depend on it. */
const STREAMS = 2;

/**
 * Lays all items on the shortest strip it can find.
 *
 * Two streams with different seeds share one table of no-fit regions and exchange their best layouts; for items at any
 * angle two engines race first (see `race.ts`). With `steps` for effort the result is the same on every machine and with
 * any number of workers; with `seconds`, in which building the tables counts, it is not. Ends early, with the best so far, when the signal is aborted or workers
 * die.
 *
 * RangeError for an item that fits the strip in none of its turns, for a demand that is no whole number, for items without
 * rotations, for effort without limit, and for numbers that are not finite.
 */
export async function packStrip(
  strip: Strip,
  effort: Effort,
  seed: number,
  control: StripControl = {},
): Promise<StripResult> {
  const { steps, seconds } = checkedEffort(effort);
  if (!(strip.height > 0) || !Number.isFinite(strip.height)) {
    throw new RangeError(`The strip's height must be positive and finite, got ${strip.height}`);
  }
  strip.items.forEach(assertItem);
  const began = performance.now();
  // What is not wanted need not fit.
  const wanted = strip.items.flatMap((item, k) => (item.demand > 0 ? [k] : []));
  const numbered = (result: StripResult): StripResult => ({
    ...result,
    placements: result.placements.map((placed) => ({ ...placed, item: wanted[placed.item] as number })),
  });
  const items = wanted.map((k) => strip.items[k] as StripItem);
  const compiled = compileStrip({ ...strip, items }, { steps, seconds });
  const left = Math.max(0.001, seconds - (performance.now() - began) / 1000);
  const result = await packCompiled(compiled, { steps, seconds: left }, seed, {
    ...control,
    onProgress: (best) => control.onProgress?.(numbered(best)),
  });
  return numbered(result);
}

/** The same for a strip that is compiled already. */
export async function packCompiled(
  compiled: CompiledStrip,
  effort: Effort,
  seed: number,
  control: StripControl = {},
): Promise<StripResult> {
  const { steps, seconds } = checkedEffort(effort);
  const began = performance.now();
  const result = (report: CrewReport): StripResult => resultOf(compiled, report);
  const search = (hands: readonly Hand[]): Promise<CrewReport | undefined> => {
    const rounds = Number.isFinite(steps) ? ROUNDS : Math.max(ROUNDS, Math.ceil(seconds));
    return workTogether(hands, rounds, control.signal, (best) => control.onProgress?.(result(best)));
  };
  const ports = await startWorkers(control);
  if (ports.length > 0) {
    const report = await search(workerHands(ports, streamPlans(compiled, { steps, seconds }, seed)));
    if (report !== undefined) return result(report);
  }
  // Without workers, or when all died before they had found anything, in the calling thread, one stream after the other.
  const left = Math.max(0.001, seconds - (performance.now() - began) / 1000);
  const plans = streamPlans(compiled, { steps, seconds: left / STREAMS }, seed);
  const report = await search(plans.map(localHand));
  if (report !== undefined) return result(report);
  // Aborted before anything was found: a first layout is still owed.
  const [plan] = plans;
  return result(await localHand({ ...plan, seconds: 0.001 }).work({ until: 0, offered: undefined }));
}

/** What each stream is to do; `seconds` are those of its own work. */
function streamPlans(
  { instance, rival, height }: CompiledStrip,
  { steps, seconds }: Required<Effort>,
  seed: number,
): StreamPlan[] {
  return Array.from({ length: STREAMS }, (_, k): StreamPlan => {
    const swapped = rival !== undefined && k % 2 === 1;
    return {
      instance: swapped ? rival : instance,
      rival: swapped ? instance : rival,
      height,
      seed: STREAMS * seed + k,
      steps: steps / STREAMS,
      seconds,
    };
  });
}

/** A hand for each worker; when a worker cannot be sent its plan, all are ended. */
function workerHands(ports: readonly WorkerPort[], plans: readonly StreamPlan[]): Hand[] {
  try {
    return ports.map((port, k) => workerHand(port, plans[k]));
  } catch (error) {
    for (const port of ports) port.close();
    throw error;
  }
}

/** Rounds of search, with an exchange after each. */
const ROUNDS = 40;

/**
 * One worker for each stream, or none where not all start: a stream in the calling thread would hold up the reports of the
 * others.
 */
async function startWorkers(control: StripControl): Promise<WorkerPort[]> {
  if ((control.workers ?? STREAMS) < STREAMS) return [];
  const start = control.startWorker ?? openWorker;
  const ports = await Promise.allSettled(Array.from({ length: STREAMS }, start));
  const started = ports.flatMap((port) => (port.status === "fulfilled" && port.value ? [port.value] : []));
  if (started.length === STREAMS) return started;
  for (const port of started) port.close();
  return [];
}

function assertItem({ demand, rotations }: StripItem, index: number): void {
  if (!Number.isSafeInteger(demand) || demand < 0) {
    throw new RangeError(`The demand of item ${index} must be a whole number, 0 or more, got ${demand}`);
  }
  if (rotations !== "any" && (rotations.length === 0 || !rotations.every(Number.isFinite))) {
    throw new RangeError(
      `Item ${index} needs one rotation at least, all finite, got [${rotations.join(", ")}]`,
    );
  }
}

function checkedEffort(effort: Effort): { steps: number; seconds: number } {
  const { steps = Infinity, seconds = Infinity } = effort;
  if (!(steps > 0) || !(seconds > 0) || (steps === Infinity && seconds === Infinity)) {
    throw new RangeError(
      `The effort needs a positive number of seconds or steps, got ${seconds} and ${steps}`,
    );
  }
  return { steps, seconds };
}

function resultOf({ instance, turns, height }: CompiledStrip, report: CrewReport): StripResult {
  const { length, snapshot } = report.best;
  let area = 0;
  const placements = Array.from({ length: instance.movable }, (_, i): StripPlacement => {
    const shape = snapshot.shape[i];
    const item = instance.kindOfItem[i];
    const turn = turns[item][instance.turnOfShape[shape]];
    const [cos, sin] = [Math.cos(snapshot.angle[i]), Math.sin(snapshot.angle[i])];
    area += instance.area[item];
    return {
      item,
      x: snapshot.x[i] - cos * instance.centreX[shape] + sin * instance.centreY[shape],
      y: snapshot.y[i] - sin * instance.centreX[shape] - cos * instance.centreY[shape],
      rotation: turn.rotation + (snapshot.angle[i] * 180) / Math.PI,
      mirrored: turn.mirrored,
    };
  });
  return {
    length,
    density: length === 0 ? 0 : area / (height * length),
    placements,
    steps: report.steps,
    evaluations: report.evaluations,
  };
}
