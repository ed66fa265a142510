import { execFile, spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

export interface Ended {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** Seconds from start to end of the process. */
  readonly seconds: number;
}

export const programFile: string = fileURLToPath(new URL("../../packages/cli/dist/bin.js", import.meta.url));
export const examples: string = fileURLToPath(new URL("../../examples", import.meta.url));

/** Runs the built program in a process of its own, both streams into pipes. */
export function program(
  argv: readonly string[],
  cwd: string,
  env: Readonly<Record<string, string>> = {},
): Promise<Ended> {
  requireBuilt();
  const start = performance.now();
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [programFile, ...argv],
      { cwd, env: { ...process.env, ...env }, maxBuffer: 64 * 1024 * 1024 },
      (error, out, err) => {
        const code = error === null ? 0 : typeof error.code === "number" ? error.code : -1;
        resolve({ code, out, err, seconds: (performance.now() - start) / 1000 });
      },
    );
  });
}

/** Starts the built program and interrupts it as Ctrl-C does after so many seconds. */
export function interrupted(argv: readonly string[], cwd: string, afterSeconds: number): Promise<Ended> {
  requireBuilt();
  const start = performance.now();
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [programFile, ...argv], { cwd, stdio: ["ignore", "pipe", "pipe"] });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      err += text;
    });
    const timer = setTimeout(() => child.kill("SIGINT"), afterSeconds * 1000);
    child.on("close", (code) => {
      clearTimeout(timer);
      resolve({ code: code ?? -1, out, err, seconds: (performance.now() - start) / 1000 });
    });
  });
}

function requireBuilt(): void {
  if (!existsSync(programFile)) throw new Error("the program is not built: run tsc -b first");
}
