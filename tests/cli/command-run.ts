import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { run } from "../../packages/cli/src/main.js";

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

interface Surroundings {
  readonly env?: Record<string, string>;
  /** Results go to a terminal. */
  readonly terminal?: boolean;
  readonly signal?: AbortSignal;
}

/** Runs the program in this process, as in a pipe unless told otherwise: no terminal on either side. */
export async function command(
  argv: readonly string[],
  cwd: string,
  { env = {}, terminal = false, signal = new AbortController().signal }: Surroundings = {},
): Promise<Ran> {
  let out = "";
  let err = "";
  const code = await run(argv, {
    cwd,
    env,
    stdout: {
      isTTY: terminal,
      write: (text) => {
        out += text;
      },
    },
    stderr: {
      isTTY: false,
      write: (text) => {
        err += text;
      },
    },
    signal,
  });
  return { code, out, err };
}

/** A folder of its own for a test, with these files in it. */
export async function scratch(files: Readonly<Record<string, string | Uint8Array>>): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "keelcut-test-"));
  for (const [path, content] of Object.entries(files)) {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), content);
  }
  return folder;
}

export async function remove(folder: string): Promise<void> {
  await rm(folder, { recursive: true, force: true });
}

/** Every file below a folder with its content, sorted by path: to show that nothing changed, or that two are equal. */
export async function contents(folder: string): Promise<Map<string, string>> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const paths = entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
  const read = await Promise.all(
    paths.map(async (path) => [path.slice(folder.length + 1), await readFile(path, "latin1")] as const),
  );
  return new Map(read);
}
