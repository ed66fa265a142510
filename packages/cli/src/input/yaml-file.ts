import { readdir, readFile, stat } from "node:fs/promises";
import { basename, dirname, relative, resolve } from "node:path";
import { rememberedBy } from "@keelcut/geometry";
import { InputError, inputError } from "./input-error.js";
import { type Located, type LocatedScalar, type Origin, placeText } from "./located.js";
import { didYouMean } from "./nearest-name.js";
import { parseYaml } from "./yaml-text.js";

/** Larger files are refused before they are parsed: a frame file is a few kilobytes. */
const largestFile = 10 * 1024 * 1024;

/**
 * Reads one YAML file and keeps line and column of every value.
 *
 * @param path relative to `cwd`, as the person typed it; errors show it like that
 * @throws InputError naming the file and, inside it, line and column
 */
export async function readYamlFile(path: string, cwd: string): Promise<Located> {
  if (path === "") throw inputError("file name", "is empty");
  if (path.includes("\0")) throw inputError("file name", "cannot be a file name");
  const absolute = resolve(cwd, path);
  const origin: Origin = { shown: path, folder: dirname(absolute) };
  return parsedOnce(decode(await readBytes(absolute, path), path), origin);
}

/** Variations of a frame start from the same files: the same text is parsed once. */
const parsedOnce = rememberedBy(
  16,
  (text: string, origin: Origin) => JSON.stringify([origin, text]),
  parseYaml,
);

/** A file that another file, or an option, names. */
export interface Referenced {
  readonly absolute: string;
  readonly root: Located;
}

/**
 * Reads the YAML file that a value names, relative to the file (or working folder, for an option) the value stands in.
 *
 * @throws InputError; when the file as a whole cannot be read, the place is that of the value that names it
 */
export async function readReferencedFile(
  reference: LocatedScalar,
  field: string,
  cwd: string,
): Promise<Referenced> {
  const absolute = resolve(reference.place.origin.folder, reference.text);
  const shown = relative(cwd, absolute) || absolute;
  try {
    return { absolute, root: await readYamlFile(shown, cwd) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const where = placeText(reference.place);
    throw new InputError(
      error.problems.map((problem) =>
        problem.where === shown ? { where, field, message: `${shown}: ${problem.message}` } : problem,
      ),
    );
  }
}

async function readBytes(absolute: string, shown: string): Promise<Uint8Array> {
  try {
    const facts = await stat(absolute);
    if (facts.isDirectory()) throw inputError(shown, "is a folder; name the YAML file inside it");
    if (!facts.isFile()) throw inputError(shown, "is not a plain file");
    if (facts.size > largestFile) {
      const size = Math.ceil(facts.size / 1024 / 1024);
      throw inputError(shown, `has ${size} MB; more than 10 MB cannot be meant`);
    }
    return await readFile(absolute);
  } catch (error) {
    throw await readable(error, absolute, shown);
  }
}

async function readable(error: unknown, absolute: string, shown: string): Promise<unknown> {
  const code = error instanceof Error && "code" in error ? error.code : undefined;
  if (code === "ENOENT" || code === "ENOTDIR") {
    const others = await readdir(dirname(absolute)).catch(() => []);
    return inputError(shown, `there is no such file${didYouMean(basename(absolute), others)}`);
  }
  if (code === "EACCES" || code === "EPERM") return inputError(shown, "may not be read: no permission");
  if (typeof code === "string") return inputError(shown, `could not be read (${code})`);
  return error;
}

function decode(bytes: Uint8Array, shown: string): string {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    throw inputError(shown, "is UTF-16 text; save it as UTF-8");
  }
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw inputError(shown, "is not UTF-8 text; save it as UTF-8");
  }
}
