import type { Effort, NestControl } from "./job.js";

/** Steps when a job names neither steps nor seconds: about a second and a half for 20 plates. */
export const DEFAULT_STEPS = 3000;

/** Milliseconds of work between two chances for the caller to abort. */
const BREATH = 30;

/** Counts search steps and knows when to stop. Time is read only to honour `seconds` and to let others run. */
export class Budget {
  steps = 0;
  private readonly mostSteps: number;
  private readonly end: number;
  private readonly start: number;
  private readonly signal: AbortSignal | undefined;
  private breath: number;

  constructor(effort: Effort, control: NestControl) {
    const open = effort.steps === undefined && effort.seconds === undefined;
    this.start = performance.now();
    this.mostSteps = effort.steps ?? (open ? DEFAULT_STEPS : Number.POSITIVE_INFINITY);
    this.end = this.start + 1000 * (effort.seconds ?? Number.POSITIVE_INFINITY);
    this.signal = control.signal;
    this.breath = this.start;
  }

  /** True when the given share of the effort is used up, or the caller has aborted. */
  spent(share = 1): boolean {
    if (this.signal?.aborted || this.steps >= share * this.mostSteps) return true;
    return (
      this.end < Number.POSITIVE_INFINITY && performance.now() >= this.start + share * (this.end - this.start)
    );
  }

  /** Counts one step; now and then lets timers and events run. */
  async step(): Promise<void> {
    this.steps++;
    const now = performance.now();
    if (now - this.breath < BREATH) return;
    await new Promise<void>((resume) => {
      setTimeout(resume, 0);
    });
    this.breath = performance.now();
  }
}
