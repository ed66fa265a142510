#!/usr/bin/env node
import { run } from "./main.js";

const interruption = new AbortController();

// The first Ctrl-C ends a search with the best so far; the second one ends the program.
process.on("SIGINT", () => {
  if (interruption.signal.aborted) process.exit(130);
  interruption.abort();
});

// Ended by the system: leave through the door, so that nothing half-written stays.
process.on("SIGTERM", () => process.exit(143));

process.on("SIGHUP", () => process.exit(129));

// Nobody reads what goes wrong: no reason to end otherwise than one would.
process.stderr.on("error", () => {});

// A reader that closes the pipe early, such as head, is no error.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  process.stderr.write(`keelcut: the results could not be written (${error.code ?? error.message})\n`);
  process.exit(2);
});

/** The question on stderr, so that results alone go to stdout. */
async function ask(question: string): Promise<string | undefined> {
  const { createInterface } = await import("node:readline/promises");
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  try {
    return await Promise.race([
      lines.question(question),
      new Promise<undefined>((resolve) => lines.once("close", () => resolve(undefined))),
    ]);
  } finally {
    lines.close();
  }
}

process.exitCode = await run(process.argv.slice(2), {
  cwd: process.cwd(),
  env: process.env,
  stdout: process.stdout,
  stderr: process.stderr,
  signal: interruption.signal,
  ...(process.stdin.isTTY && process.stderr.isTTY ? { ask } : {}),
});
