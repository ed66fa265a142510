import type { Screen } from "./screen.js";

/** Shows how far a long command is. */
export interface Progress {
  /** Begins the next stage. */
  readonly stage: (name: string) => void;
  /** Adds what the stage has reached so far. */
  readonly detail: (text: string) => void;
  /** Takes the line away. */
  readonly end: () => void;
}

const silent: Progress = { stage: () => undefined, detail: () => undefined, end: () => undefined };

/** A bar on stderr while a person watches; nothing at all in a pipe. */
export async function progressOn(screen: Screen, stages: number): Promise<Progress> {
  if (!screen.watched) return silent;
  const { default: cliProgress } = await import("cli-progress");
  const bar = new cliProgress.SingleBar({
    format: "{bar} {stage} {detail}",
    barsize: 20,
    clearOnComplete: true,
    hideCursor: false,
    stream: process.stderr,
  });
  bar.start(stages, 0, { stage: "", detail: "" });
  // The bar turns line wrapping off: whoever leaves by the exit must find the terminal as it was.
  const leave = (): void => bar.stop();
  process.once("exit", leave);
  let done = -1;
  return {
    stage: (stage) => {
      done += 1;
      bar.update(Math.min(done, stages), { stage, detail: "" });
    },
    detail: (detail) => bar.update({ detail }),
    end: () => {
      process.off("exit", leave);
      bar.stop();
    },
  };
}
