import { describe, expect, it } from "vitest";
import { packStrip } from "../../../packages/nesting/src/strip/pack-strip.js";
import { KeptWorkers } from "../../../packages/nesting/src/workers/kept-workers.js";
import type { WorkerPort } from "../../../packages/nesting/src/workers/open-worker.js";
import { hooks } from "../strip/small-strips.js";

/** A thread that does nothing, and what has happened to it. */
class Thread implements WorkerPort {
  readonly posted: unknown[] = [];
  closed = false;
  private listen: ((message: unknown) => void) | undefined;
  private end: ((reason: Error) => void) | undefined;

  post(message: unknown): void {
    this.posted.push(message);
  }
  onMessage(listen: (message: unknown) => void): void {
    this.listen = listen;
  }
  onEnd(listen: (reason: Error) => void): void {
    this.end = listen;
  }
  close(): void {
    this.closed = true;
  }
  say(message: unknown): void {
    this.listen?.(message);
  }
  die(): void {
    this.end?.(new Error("died"));
  }
}

function keeper(): { threads: Thread[]; kept: KeptWorkers } {
  const threads: Thread[] = [];
  const kept = new KeptWorkers(async () => {
    const thread = new Thread();
    threads.push(thread);
    return thread;
  });
  return { threads, kept };
}

describe("kept workers", () => {
  it("are lent again when given back, and heard by their holder only", async () => {
    const { threads, kept } = keeper();
    const heard: string[] = [];
    const first = await kept.start();
    first?.onMessage((message) => heard.push(`first ${message}`));
    threads[0]?.say("a");
    first?.close();
    threads[0]?.say("b");
    const second = await kept.start();
    second?.onMessage((message) => heard.push(`second ${message}`));
    threads[0]?.say("c");
    // Given back twice, it still belongs to who has it now.
    first?.close();
    const third = await kept.start();
    expect(third).toBeDefined();
    expect(threads.length).toBe(2);
    expect(heard).toEqual(["first a", "second c"]);
    expect(threads.some((thread) => thread.closed)).toBe(false);
    kept.close();
    expect(threads.every((thread) => thread.closed)).toBe(true);
  });

  it("are not lent once they have died", async () => {
    const { threads, kept } = keeper();
    const reasons: string[] = [];
    const first = await kept.start();
    first?.onEnd((reason) => reasons.push(reason.message));
    threads[0]?.die();
    expect(reasons).toEqual(["died"]);
    first?.close();
    await kept.start();
    expect(threads.length).toBe(2);
  });

  it("give what fresh ones give, also after a search that was aborted", async () => {
    const kept = new KeptWorkers();
    const controller = new AbortController();
    await packStrip(hooks, { seconds: 20 }, 1, {
      workers: 2,
      startWorker: kept.start,
      signal: controller.signal,
      // A while later the workers are busy with orders of half a second each.
      onProgress: () => setTimeout(() => controller.abort(), 50),
    });
    const again = await packStrip(hooks, { steps: 3000 }, 5, { workers: 2, startWorker: kept.start });
    kept.close();
    expect(again).toEqual(await packStrip(hooks, { steps: 3000 }, 5, { workers: 0 }));
  });
});
