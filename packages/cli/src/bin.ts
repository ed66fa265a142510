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

// A reader that closes the pipe early, such as head, is no error.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  process.stderr.write(`keelcut: the results could not be written (${error.code ?? error.message})\n`);
  process.exit(2);
});

process.exitCode = await run(process.argv.slice(2), {
  cwd: process.cwd(),
  env: process.env,
  stdout: process.stdout,
  stderr: process.stderr,
  signal: interruption.signal,
});
