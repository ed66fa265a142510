#!/usr/bin/env node
import { run } from "./main.js";

const interruption = new AbortController();

// The first Ctrl-C ends a search with the best so far; the second one ends the program.
process.on("SIGINT", () => {
  if (interruption.signal.aborted) process.exit(130);
  interruption.abort();
});

// A reader that closes the pipe early, such as head, is no error.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  throw error;
});

process.exitCode = await run(process.argv.slice(2), {
  cwd: process.cwd(),
  env: process.env,
  stdout: process.stdout,
  stderr: process.stderr,
  signal: interruption.signal,
});
