import { openWorker, type WorkerPort } from "./open-worker.js";

/**
 * Workers for many short searches: a thread takes a while to start, and its code longer to become fast.
 *
 * `start` lends a worker; closing what it lent gives the worker back. It may still be busy with its last order then; what
 * it is asked next waits for that.
 */
export class KeptWorkers {
  private readonly open: () => Promise<WorkerPort | undefined>;
  private readonly all: KeptWorker[] = [];
  private closed = false;

  constructor(open: () => Promise<WorkerPort | undefined> = openWorker) {
    this.open = open;
  }

  readonly start = async (): Promise<WorkerPort | undefined> => {
    const idle = this.all.find((worker) => worker.idle);
    if (idle !== undefined) return idle.lent();
    const port = await this.open();
    if (port === undefined) return undefined;
    if (this.closed) {
      port.close();
      return undefined;
    }
    const worker = new KeptWorker(port);
    this.all.push(worker);
    return worker.lent();
  };

  /** Ends all workers, also those that are lent. */
  close(): void {
    this.closed = true;
    for (const { port } of this.all.splice(0)) port.close();
  }
}

class KeptWorker {
  readonly port: WorkerPort;
  private holder: { message?: (message: unknown) => void; end?: (reason: Error) => void } | undefined;
  private ended: Error | undefined;

  constructor(port: WorkerPort) {
    this.port = port;
    port.onMessage((message) => this.holder?.message?.(message));
    port.onEnd((reason) => {
      this.ended = reason;
      this.holder?.end?.(reason);
    });
  }

  get idle(): boolean {
    return this.holder === undefined && this.ended === undefined;
  }

  lent(): WorkerPort {
    const holder: NonNullable<typeof this.holder> = {};
    this.holder = holder;
    return {
      post: (message) => this.port.post(message),
      onMessage: (listen) => {
        holder.message = listen;
      },
      onEnd: (listen) => {
        holder.end = listen;
        if (this.ended !== undefined) listen(this.ended);
      },
      close: () => {
        if (this.holder === holder) this.holder = undefined;
      },
    };
  }
}
