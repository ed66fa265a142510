import { createHash } from "node:crypto";
import type { Dirent } from "node:fs";
import { lstat, readdir, readFile, realpath } from "node:fs/promises";
import { homedir } from "node:os";
import { dirname, join, parse, relative, resolve, sep } from "node:path";
import { jobFileName, jobFormat } from "./job-format.js";
import { OutputError, outputError } from "./output-error.js";

/** Where an output folder goes, and what must come to no harm. */
export interface Destination {
  /** As the person typed it. */
  readonly out: string;
  readonly cwd: string;
  /** Also replace a folder, or files in it, that this program did not write. */
  readonly force: boolean;
  /** Absolute paths of the files that were read. */
  readonly inputs: readonly string[];
}

/** More foreign files than this are no output folder whatever `--force` says. */
const mostForeign = 200;

/**
 * Refuses a destination before any work is done.
 *
 * Never, even by force: a disk's root, the home folder, the working folder or one around it, a folder with an input
 * file or a version history in it, a link, a file. Only by force: a folder this program did not write, or one that
 * holds files it did not write or that were changed since.
 *
 * @throws OutputError with one sentence
 */
export async function checkDestination(destination: Destination): Promise<void> {
  const { out, cwd, force } = destination;
  if (out.trim() === "") throw new OutputError("--out is empty; give a folder, for example out/teal");
  if (out.includes("\0")) throw new OutputError("--out cannot be used as a path");
  const target = resolve(cwd, out);
  await refuseDangerous(target, destination);
  const kind = await lstat(target).catch((error: unknown) => {
    if (error instanceof Error && "code" in error && error.code === "ENOENT") return undefined;
    throw outputError(out, error);
  });
  if (kind === undefined) return;
  if (kind.isSymbolicLink()) throw new OutputError(`${out} is a link; give the folder itself`);
  if (!kind.isDirectory()) throw new OutputError(`${out} is a file, not a folder; choose another --out`);
  const foreign = await foreignFiles(target).catch((error: unknown) => {
    throw outputError(out, error);
  });
  if (foreign.files.length === 0) return;
  const list = foreign.files.slice(0, 3).join(", ") + (foreign.files.length > 3 ? ", ..." : "");
  if (foreign.files.some((file) => file.split("/").includes(".git"))) {
    throw new OutputError(
      `${out} holds a version history (.git) and is never replaced; choose another --out`,
    );
  }
  if (foreign.files.length > mostForeign) {
    throw new OutputError(
      `${out} holds more than ${mostForeign} other files and is never replaced; choose another --out`,
    );
  }
  if (force) return;
  throw new OutputError(
    foreign.ours
      ? `${out} holds files that were added or changed since it was written (${list}); move them away, choose another --out, or delete them with --force`
      : `${out} was not written by keelcut (it holds ${list}); choose another --out, or replace it with --force`,
  );
}

async function refuseDangerous(target: string, { out, cwd, inputs }: Destination): Promise<void> {
  const places = [target, await realpath(target).catch(() => target)];
  const files = new Map<string, string>();
  for (const file of inputs) {
    files.set(file, file);
    // An input that is reached through a link lies elsewhere as well.
    files.set(await realpath(file).catch(() => file), file);
  }
  for (const place of places) {
    if (place === parse(place).root)
      throw new OutputError(`${out} is the root of the disk; choose another --out`);
    if (place === resolve(homedir()))
      throw new OutputError(`${out} is your home folder; choose another --out`);
    if (holds(place, resolve(homedir()))) {
      throw new OutputError(`${out} is a folder around your home folder; choose another --out`);
    }
    if (place === resolve(cwd)) throw new OutputError(`${out} is the working folder; choose another --out`);
    if (holds(place, resolve(cwd))) {
      throw new OutputError(`${out} is a folder around the working folder; choose another --out`);
    }
    const input = [...files].find(([file]) => holds(place, file))?.[1];
    if (input !== undefined) {
      throw new OutputError(`${out} holds the input file ${relative(cwd, input)}; choose another --out`);
    }
  }
}

function holds(folder: string, path: string): boolean {
  return path.startsWith(folder.endsWith(sep) ? folder : folder + sep) && dirname(path) !== path;
}

interface Foreign {
  /** Whether this program wrote the folder once. */
  readonly ours: boolean;
  /** Files it did not write, or that are no longer what it wrote. */
  readonly files: readonly string[];
}

async function foreignFiles(folder: string): Promise<Foreign> {
  const present = await filesIn(folder);
  const written = await manifest(folder);
  if (written === undefined) return { ours: false, files: present };
  const files: string[] = [];
  for (const path of present) {
    if (path === jobFileName) continue;
    const hash = written.get(path);
    if (hash === undefined || hash !== contentHash(await readFile(join(folder, path)))) files.push(path);
  }
  return { ours: true, files };
}

/** Files below a folder with `/`, links as files, sorted; stops early in a folder that is far too full. */
async function filesIn(folder: string): Promise<string[]> {
  const found: string[] = [];
  const waiting = [""];
  for (let place = waiting.pop(); place !== undefined; place = waiting.pop()) {
    const entries: Dirent[] = await readdir(join(folder, place), { withFileTypes: true });
    for (const entry of entries) {
      const path = place === "" ? entry.name : `${place}/${entry.name}`;
      if (entry.isDirectory() && entry.name !== ".git") waiting.push(path);
      else found.push(path);
    }
    if (found.length > 10 * mostForeign) break;
  }
  return found.sort();
}

/** What job.json says was written, or nothing when the folder has none of ours. */
async function manifest(folder: string): Promise<Map<string, string> | undefined> {
  const text = await readFile(join(folder, jobFileName), "utf8").catch(() => undefined);
  if (text === undefined) return undefined;
  try {
    const record: unknown = JSON.parse(text);
    if (!isRecord(record) || record["format"] !== jobFormat || !Array.isArray(record["files"]))
      return undefined;
    const files = record["files"].filter(isRecord);
    return new Map(files.map((file) => [String(file["path"]), String(file["sha256"])]));
  } catch {
    return undefined;
  }
}

/** SHA-256 in hexadecimal, as the manifest in job.json states it. */
export function contentHash(content: string | Uint8Array): string {
  return createHash("sha256").update(content).digest("hex");
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null;
}
