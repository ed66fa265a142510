import type { Hand } from "../strip/crew.js";
import { newStream, type Stream, type StreamPlan, type StreamReport } from "../strip/stream.js";
import type { WorkerPort } from "./open-worker.js";
import type { WorkerMessage, WorkerReport } from "./strip-worker.js";

/** Milliseconds a stream in the calling thread works before others get a turn. */
const SLICE = 40;

/** A stream in the calling thread, pausing often so that signals and timers come through. */
export function localHand(plan: StreamPlan): Hand {
  let stream: Stream | undefined;
  let closed = false;
  return {
    work: async (order) => {
      stream ??= newStream(plan);
      for (;;) {
        if (closed) throw new Error("The stream was closed");
        const report = stream.work(order, SLICE);
        if (report !== undefined) return report;
        await new Promise((resolve) => setTimeout(resolve));
      }
    },
    close: () => {
      closed = true;
    },
  };
}

/** Plans sent to workers so far. */
let plans = 0;

/** A stream in a worker. Its work is refused once the worker has died. */
export function workerHand(port: WorkerPort, plan: StreamPlan): Hand {
  let dead: Error | undefined;
  let waiting: { resolve: (report: StreamReport) => void; reject: (reason: Error) => void } | undefined;
  const number = ++plans;
  const post = (message: WorkerMessage): void => port.post(message);
  port.onMessage((message) => {
    const answer = message as WorkerReport;
    if (answer.number !== number) return;
    waiting?.resolve(answer.report as StreamReport);
    waiting = undefined;
  });
  port.onEnd((reason) => {
    dead = reason;
    waiting?.reject(reason);
    waiting = undefined;
  });
  post({ kind: "plan", number, plan });
  return {
    work: (order) =>
      new Promise((resolve, reject) => {
        if (dead !== undefined) return reject(dead);
        waiting = { resolve, reject };
        post({ kind: "order", number, order });
      }),
    close: () => port.close(),
  };
}
