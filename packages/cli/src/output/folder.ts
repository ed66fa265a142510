import { randomBytes } from "node:crypto";
import { existsSync, renameSync, rmSync } from "node:fs";
import { mkdir, rm, rmdir, writeFile } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { checkDestination, type Destination } from "./destination.js";
import { OutputError, outputError } from "./output-error.js";

/** One file of an output folder. */
export interface OutputFile {
  /** Relative to the folder, with `/`. */
  readonly path: string;
  readonly content: string | Uint8Array;
}

/**
 * Writes a folder whole or not at all: everything goes into a new folder beside the destination, which is then renamed
 * into place. What stood there before is moved aside first and deleted last, and comes back when anything fails.
 *
 * @throws OutputError with one sentence; the destination is then as it was
 */
export async function writeFolder(destination: Destination, files: readonly OutputFile[]): Promise<void> {
  refuseNames(files);
  const target = resolve(destination.cwd, destination.out);
  // Before the work begins it was checked as well, but minutes may lie between.
  await checkDestination(destination);
  const parent = dirname(target);
  const madeParent = await writing(destination, () => mkdir(parent, { recursive: true }));
  const mark = randomBytes(4).toString("hex");
  const beside = join(parent, `.${basename(target)}.new-${mark}`);
  const aside = join(parent, `.${basename(target)}.old-${mark}`);
  const sweep = (): void => rmSync(beside, { recursive: true, force: true });
  process.once("exit", sweep);
  try {
    await writing(destination, () => writeAll(beside, files));
    await writing(destination, async () => swap(beside, target, aside));
  } catch (error) {
    await rm(beside, { recursive: true, force: true });
    if (madeParent !== undefined) await removeEmpty(parent, madeParent);
    throw error;
  } finally {
    process.removeListener("exit", sweep);
  }
  // What was there before is out of the way; that it cannot be deleted does not undo what was written.
  await rm(aside, { recursive: true, force: true }).catch(() => undefined);
}

/** Takes the folders away that were made on the way to the destination, as far as nobody else uses them by now. */
async function removeEmpty(from: string, upTo: string): Promise<void> {
  for (let folder = from; folder.startsWith(upTo); folder = dirname(folder)) {
    const gone = await rmdir(folder).then(
      () => true,
      () => false,
    );
    if (!gone) return;
  }
}

async function writeAll(folder: string, files: readonly OutputFile[]): Promise<void> {
  await mkdir(folder);
  for (const file of files) {
    const path = join(folder, file.path);
    await mkdir(dirname(path), { recursive: true });
    await writeFile(path, file.content, { flag: "wx" });
  }
}

/** In one go, so that no second Ctrl-C comes between and leaves the old folder hidden. */
function swap(beside: string, target: string, aside: string): void {
  const replaced = existsSync(target);
  if (replaced) renameSync(target, aside);
  try {
    renameSync(beside, target);
  } catch (error) {
    if (replaced) renameSync(aside, target);
    throw error;
  }
}

/** Names that cannot stand side by side everywhere: equal but for case, or of devices on Windows. */
function refuseNames(files: readonly OutputFile[]): void {
  const seen = new Map<string, string>();
  for (const { path } of files) {
    const folded = path.toLowerCase();
    const other = seen.get(folded);
    if (other !== undefined) throw new OutputError(`two files would be called ${path} (and ${other})`);
    seen.set(folded, path);
    const steps = path.split("/");
    const bad = steps.some(
      (step) =>
        step === "" || step === "." || step === ".." || /[<>:"\\|?*\p{Cc}]/u.test(step) || /[. ]$/.test(step),
    );
    const device = steps.some((step) => /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i.test(step));
    if (bad || device) throw new OutputError(`"${path}" cannot be a file name`);
  }
}

async function writing<T>(destination: Destination, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    throw outputError(destination.out, error);
  }
}
