import { lstat, readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import type { Finding } from "@keelcut/geometry";
import { inputError } from "../input/input-error.js";
import { contentHash } from "../output/destination.js";
import { jobFileName } from "../output/job-format.js";
import type { Certificate } from "./certificate.js";
import type { Expectations } from "./expectations.js";
import { prove, type WrittenFile } from "./prove.js";
import { proofFinding } from "./prove-finding.js";
import { baseName, type ProofRecord, proofRecord, RecordFault } from "./record.js";

/** A folder proved against its own job record. */
export interface FolderProof {
  readonly record: ProofRecord;
  readonly certificate: Certificate;
}

/** A folder of ours is not larger: beyond, something else is wrong. */
const MOST_FILES = 20_000;

/**
 * Reads the record of a written folder and every file it lists: drawings are read as a stranger reads them and compared
 * with the record, all others by their hash, which is all a PDF or a table can be proved by.
 *
 * @throws InputError when there is no folder, or it holds no job record that can be used
 */
export async function proveFolder(folder: string, shown: string): Promise<FolderProof> {
  const record = await recordOf(folder, shown);
  const present = await filesOf(folder, shown);
  const drawings: WrittenFile[] = [];
  const findings: Finding[] = [];
  for (const path of present) {
    const content = await readFile(join(folder, path)).catch((error: unknown) => {
      throw inputError(`${shown}/${path}`, `cannot be read: ${reason(error)}`);
    });
    if (isDrawing(path)) drawings.push({ name: path, text: content.toString("utf8") });
    const listed = record.files.find((file) => file.path === path);
    if (path === jobFileName || listed?.sha256 === contentHash(content)) continue;
    findings.push(...unlike(path, listed !== undefined));
  }
  const missing = record.files
    .filter(({ path }) => !present.includes(path) && !isDrawing(path))
    .map(({ path }) => proofFinding("missing", path, "the file is missing"));
  return { record, certificate: added(prove(drawings, record.expectations), [...missing, ...findings]) };
}

/**
 * One drawing from elsewhere, such as a copy that somebody edited, against what the folder's record says of the drawing
 * of that name. Words added around the name do not matter: `edited pe-hd-10mm-01-x1 (2).dxf`.
 *
 * @throws InputError when it cannot be read or no drawing of the record is meant
 */
export async function proveDrawing(
  folder: string,
  shownFolder: string,
  path: string,
  shown: string,
): Promise<FolderProof> {
  const record = await recordOf(folder, shownFolder);
  const content = await readFile(path, "utf8").catch((error: unknown) => {
    throw inputError(shown, `cannot be read: ${reason(error)}`);
  });
  const [, format] = /\.(dxf|svg)$/i.exec(path) ?? [];
  const names = [...record.expectations.sheets, ...record.expectations.plateFiles].map(({ name }) => name);
  const [name] = names
    .filter((each) => holdsName(baseName(path).toLowerCase(), each.toLowerCase()))
    .sort((a, b) => b.length - a.length);
  if (format === undefined) throw inputError(shown, "is neither a .dxf nor a .svg file");
  if (name === undefined) {
    throw inputError(
      shown,
      `names no drawing of ${shownFolder}; its name must hold one of ${names.join(", ")}`,
    );
  }
  const ending = format.toLowerCase() === "dxf" ? "dxf" : "svg";
  const only = onlyDrawing(record.expectations, name, ending);
  return { record, certificate: prove([{ name: `${name}.${ending}`, text: content }], only) };
}

/** The name as a whole: x1 is not in x10. */
function holdsName(text: string, name: string): boolean {
  return new RegExp(`${name.replace(/[^a-z0-9-]/g, "\\$&")}(?!\\d)`).test(text);
}

function onlyDrawing(expectations: Expectations, name: string, format: "dxf" | "svg"): Expectations {
  const sheets = expectations.sheets.filter((sheet) => sheet.name === name);
  const given = (id: string): number =>
    sheets.reduce(
      (sum, { placements, times }) => sum + times * placements.filter(({ plate }) => plate === id).length,
      0,
    );
  return {
    ...expectations,
    formats: [format],
    sheets,
    plateFiles: expectations.plateFiles.filter((file) => file.name === name),
    plates: expectations.plates.map((plate) => ({ ...plate, copies: given(plate.id) })),
  };
}

async function recordOf(folder: string, shown: string): Promise<ProofRecord> {
  const kind = await lstat(folder).catch(() => undefined);
  if (kind === undefined) throw inputError(shown, "there is no such folder");
  if (!kind.isDirectory()) throw inputError(shown, "is no folder; give the folder that was written");
  const text = await readFile(join(folder, jobFileName), "utf8").catch(() => undefined);
  if (text === undefined) {
    throw inputError(shown, `holds no ${jobFileName}: it was not written by this program`);
  }
  try {
    return proofRecord(text);
  } catch (error) {
    if (error instanceof RecordFault) throw inputError(`${shown}/${jobFileName}`, error.message);
    throw error;
  }
}

async function filesOf(folder: string, shown: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch((error: unknown) => {
    throw inputError(shown, `cannot be read: ${reason(error)}`);
  });
  if (entries.length > MOST_FILES) throw inputError(shown, `holds more than ${MOST_FILES} files`);
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(join(folder).replace(/\/$/, "").length + 1))
    .map((path) => path.replaceAll("\\", "/"))
    .sort();
}

function isDrawing(path: string): boolean {
  return /\.(dxf|svg)$/i.test(path);
}

/** A drawing says itself what changed; what cannot be read back must be the very bytes that were written. */
function unlike(path: string, listed: boolean): Finding[] {
  if (isDrawing(path)) {
    const message = "it was saved again since it was written; what it draws is compared with the record";
    return listed ? [{ ...proofFinding("saved-again", path, message), severity: "note" }] : [];
  }
  if (listed) return [proofFinding("bytes", path, "it was changed since it was written")];
  const message = "it is not in the job's record; it was added since";
  return [{ ...proofFinding("added", path, message), severity: "note" }];
}

function added(certificate: Certificate, findings: readonly Finding[]): Certificate {
  const proved = certificate.proved && findings.every((finding) => finding.severity !== "error");
  return { ...certificate, proved, findings: [...certificate.findings, ...findings] };
}

function reason(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : "unknown reason";
}
