import {
  newStream,
  type Stream,
  type StreamOrder,
  type StreamPlan,
  type StreamReport,
} from "../strip/stream.js";

/**
 * The thread a stream runs in: first a plan, then orders; each order is answered by one report. A new plan may follow; it
 * has a number, so that a report to an order of the last one is not taken for its own.
 *
 * Works in Node (worker_threads) and in a browser (module worker).
 */
export type WorkerMessage =
  | { readonly kind: "plan"; readonly number: number; readonly plan: StreamPlan }
  | { readonly kind: "order"; readonly number: number; readonly order: StreamOrder };

/** What a worker answers with. */
export interface WorkerReport {
  /** That of the plan. */
  readonly number: number;
  readonly report: StreamReport | undefined;
}

let stream: Stream | undefined;

function answer(message: WorkerMessage, post: (report: unknown) => void): void {
  if (message.kind === "plan") {
    stream = newStream(message.plan);
    return;
  }
  if (stream === undefined) throw new Error("An order came before the plan");
  const report = stream.work(message.order, Infinity);
  post({ number: message.number, report } satisfies WorkerReport);
}

interface MessageScope {
  postMessage(message: unknown): void;
  addEventListener(type: "message", listen: (event: { readonly data: WorkerMessage }) => void): void;
}

async function listen(): Promise<void> {
  if (typeof process === "undefined") {
    const scope = globalThis as unknown as MessageScope;
    scope.addEventListener("message", (event) => answer(event.data, (report) => scope.postMessage(report)));
    return;
  }
  const { parentPort } = await import("node:worker_threads");
  parentPort?.on("message", (message: WorkerMessage) =>
    answer(message, (report) => parentPort.postMessage(report)),
  );
}

await listen();
