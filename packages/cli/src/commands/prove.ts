import { basename, dirname, resolve } from "node:path";
import { exitCodes } from "../exit-codes.js";
import { inputError } from "../input/input-error.js";
import { jobFileName } from "../output/job-format.js";
import { stableJson } from "../output/stable-json.js";
import { certificateLines } from "../prove/certificate.js";
import { type FolderProof, proveDrawing, proveFolder } from "../prove/prove-folder.js";
import { counted } from "../screen/number-text.js";
import type { Screen } from "../screen/screen.js";
import type { JsonOption } from "./options.js";

/**
 * Reads a written folder back, or one drawing against the folder's record, and prints the certificate. Exit code 1 when
 * anything is off, 2 when the folder is none of ours.
 */
export async function prove(
  folder: string,
  drawing: string | undefined,
  options: JsonOption,
  screen: Screen,
): Promise<number> {
  if (folder.trim() === "") throw inputError("folder", "the name is empty");
  // The record stands for the folder it lies in.
  const shown = basename(folder) === jobFileName ? dirname(folder) : folder;
  const target = resolve(screen.cwd, shown);
  const proof =
    drawing === undefined
      ? await proveFolder(target, shown)
      : await proveDrawing(target, shown, resolve(screen.cwd, drawing), drawing);
  screen.print(options.json === true ? stableJson(asJson(proof)) : text(proof, drawing));
  return proof.certificate.proved ? exitCodes.fine : exitCodes.findings;
}

function asJson({ record, certificate }: FolderProof): object {
  return { format: "keelcut-proof", version: 1, name: record.name, kits: record.kits, ...certificate };
}

function text({ record, certificate }: FolderProof, drawing: string | undefined): string {
  const what = drawing === undefined ? counted(record.kits, "kit") : drawing;
  return [`${record.name}, ${what}`, ...certificateLines(certificate)].join("\n");
}
