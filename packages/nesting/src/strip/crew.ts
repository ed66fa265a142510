import type { StreamOrder, StreamReport } from "./stream.js";
import type { StripLayout } from "./strip-state.js";

/** A stream somewhere: in this thread or in a worker. */
export interface Hand {
  work(order: StreamOrder): Promise<StreamReport>;
  close(): void;
}

/**
 * Several streams searching the same strip, meeting after every round to exchange the best layout.
 *
 * Orders depend on reports only, and each round waits for all hands, so with steps for effort the outcome is the same
 * however the streams are spread over threads. A hand that dies drops out; what it had reported is kept.
 *
 * Resolves with the best layout and the work done, or undefined when every hand died before its first report.
 */
export async function workTogether(
  hands: readonly Hand[],
  rounds: number,
  signal: AbortSignal | undefined,
  onBest: (report: CrewReport) => void,
): Promise<CrewReport | undefined> {
  let alive = [...hands];
  const reports = new Map<Hand, StreamReport>();
  let best: StripLayout | undefined;
  const summary = (layout: StripLayout): CrewReport => {
    const all = [...reports.values()];
    return {
      best: layout,
      steps: all.reduce((sum, report) => sum + report.steps, 0),
      evaluations: all.reduce((sum, report) => sum + report.evaluations, 0),
    };
  };
  try {
    for (let round = 0; round <= rounds && alive.length > 0 && !signal?.aborted; round++) {
      const order: StreamOrder = { until: round / rounds, offered: best };
      const outcomes = await Promise.all(
        alive.map((hand) =>
          unlessAborted(
            signal,
            hand.work(order).catch(() => "lost" as const),
          ),
        ),
      );
      const before = best;
      outcomes.forEach((outcome, k) => {
        if (typeof outcome === "string") return;
        reports.set(alive[k], outcome);
        if (best === undefined || outcome.best.length < best.length) best = outcome.best;
      });
      alive = alive.filter((_, k) => outcomes[k] !== "lost");
      if (best !== undefined && best !== before) onBest(summary(best));
      if (alive.length > 0 && alive.every((hand) => reports.get(hand)?.finished)) break;
    }
  } finally {
    for (const hand of hands) hand.close();
  }
  return best === undefined ? undefined : summary(best);
}

export interface CrewReport {
  readonly best: StripLayout;
  readonly steps: number;
  readonly evaluations: number;
}

/** What the work comes to, or "aborted" as soon as the signal says so. */
async function unlessAborted<T>(signal: AbortSignal | undefined, work: Promise<T>): Promise<T | "aborted"> {
  if (signal === undefined) return work;
  let stop = (): void => undefined;
  const aborted = new Promise<"aborted">((resolve) => {
    stop = () => resolve("aborted");
    signal.addEventListener("abort", stop);
  });
  // Rounds are many and the signal lives on: nothing of a round may hang on it.
  return Promise.race([aborted, work]).finally(() => signal.removeEventListener("abort", stop));
}
