/** A thread that takes and sends messages; the same for Node and for a browser. */
export interface WorkerPort {
  post(message: unknown): void;
  onMessage(listen: (message: unknown) => void): void;
  /** Called once when the thread dies or fails, whatever the reason. */
  onEnd(listen: (reason: Error) => void): void;
  close(): void;
}

/**
 * Starts the search worker. Resolves with undefined where there are no workers or no shared memory; the search then
 * runs in the calling thread.
 */
export async function openWorker(): Promise<WorkerPort | undefined> {
  if (typeof SharedArrayBuffer === "undefined") return undefined;
  // From the sources (in tests) the worker is the built file; in a build it lies beside this one.
  const address = new URL(
    import.meta.url.endsWith(".ts") ? "../../dist/workers/strip-worker.js" : "./strip-worker.js",
    import.meta.url,
  );
  return typeof process === "undefined" ? openBrowserWorker(address) : openNodeWorker(address);
}

async function openNodeWorker(address: URL): Promise<WorkerPort> {
  const { Worker } = await import("node:worker_threads");
  const worker = new Worker(address);
  // Heard from the start: an error that nobody hears ends the whole process.
  const ended = new Promise<Error>((resolve) => {
    worker.once("error", resolve);
    worker.once("exit", (code) => resolve(new Error(`The search worker ended with code ${code}`)));
  });
  return {
    post: (message) => worker.postMessage(message),
    onMessage: (listen) => worker.on("message", listen),
    onEnd: (listen) => void ended.then(listen),
    close: () => {
      void worker.terminate();
    },
  };
}

interface BrowserWorker {
  postMessage(message: unknown): void;
  addEventListener(type: "message", listen: (event: { readonly data: unknown }) => void): void;
  addEventListener(type: "error", listen: (event: { readonly message: string }) => void): void;
  terminate(): void;
}

function openBrowserWorker(address: URL): WorkerPort | undefined {
  const Worker = (globalThis as { Worker?: new (address: URL, options: { type: "module" }) => BrowserWorker })
    .Worker;
  if (Worker === undefined) return undefined;
  const worker = new Worker(address, { type: "module" });
  return {
    post: (message) => worker.postMessage(message),
    onMessage: (listen) => worker.addEventListener("message", (event) => listen(event.data)),
    onEnd: (listen) => worker.addEventListener("error", (event) => listen(new Error(event.message))),
    close: () => worker.terminate(),
  };
}
