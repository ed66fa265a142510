import { randomBytes } from "node:crypto";
import { mkdir, readFile, rename, rm, stat, writeFile } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { allVariants } from "../compare/all-variants.js";
import { basisOf, type Comparison } from "../compare/comparison.js";
import { comparisonPage, pageMark } from "../compare/comparison-page.js";
import { comparisonText } from "../compare/comparison-text.js";
import type { Variant } from "../compare/variant.js";
import { combinations, variedValues } from "../compare/vary.js";
import { exitCodes } from "../exit-codes.js";
import { InputError, inputError } from "../input/input-error.js";
import { readFrame } from "../input/read-frame.js";
import { OutputError, outputError } from "../output/output-error.js";
import { stableJson } from "../output/stable-json.js";
import { progressOn } from "../screen/progress.js";
import type { Screen } from "../screen/screen.js";
import { jobWish } from "./job-wish.js";
import { type OutputOptions, settingsOf } from "./options.js";
import { expectRunOf } from "./short-run.js";

export interface CompareOptions extends OutputOptions {
  readonly vary?: readonly string[];
  readonly nest?: boolean;
}

/**
 * The same frame with different values side by side. Exit code 1 when none of them fits. A value that cannot be used
 * is a row with its reason; when no value can be used, the first reason ends the command.
 */
export async function compare(path: string, options: CompareOptions, screen: Screen): Promise<number> {
  const varied = variedValues(options.vary ?? []);
  if (varied.length === 0) {
    throw inputError(
      "--vary",
      "is missing; say what to vary, for example --vary ducts.*.pipe.size=75,90,110",
    );
  }
  if (options.nest !== true) expectRunOf("some seconds");
  const job = jobWish(options);
  const settings = settingsOf(options);
  const all = combinations(varied);
  const base = await readFrame(path, settings, screen.cwd);
  if (options.out !== undefined) await refuseForeign(options.out, base.files, options.force === true, screen);

  const progress = await progressOn(screen, all.length);
  const wish = { path, settings, cwd: screen.cwd, job, nest: options.nest === true };
  const judged = await allVariants(all, wish, progress, screen.signal).finally(progress.end);
  const [first] = judged;
  if (first?.problems !== undefined && judged.every(({ problems }) => problems !== undefined)) {
    throw new InputError(first.problems);
  }
  const variants = judged.map(({ problems: _, ...variant }): Variant => variant);
  const comparison: Comparison = {
    frame: base.parameters.name,
    kits: job.kits,
    varied,
    variants,
    basis: basisOf(options.nest === true, variants),
    stoppedEarly: variants.length < all.length || screen.signal.aborted,
  };
  const { out } = options;
  if (options.json === true) {
    // First the page: a fault in writing it is then the only document, with no other before it.
    if (out !== undefined) await writePage(out, comparisonPage(comparison), screen.cwd);
    screen.print(stableJson({ format: "keelcut-compare", version: 1, ...comparison, out }));
  } else {
    screen.print(comparisonText(comparison, screen));
    if (out !== undefined) {
      await writePage(out, comparisonPage(comparison), screen.cwd);
      screen.print(`\nWrote ${out}`);
    }
  }
  return variants.some(({ fits }) => fits) ? exitCodes.fine : exitCodes.findings;
}

/** Never an input file; only by force a file that is no such page. */
async function refuseForeign(
  out: string,
  inputs: readonly string[],
  force: boolean,
  screen: Screen,
): Promise<void> {
  if (out.trim() === "" || out.includes("\0")) throw new OutputError("--out cannot be used as a file name");
  const target = resolve(screen.cwd, out);
  if (inputs.includes(target)) throw new OutputError(`${out} is an input file; choose another --out`);
  const facts = await stat(target).catch(() => undefined);
  if (facts === undefined) return;
  if (!facts.isFile()) throw new OutputError(`${out} is a folder; give a file, for example compared.html`);
  const before = await readFile(target, "utf8").catch((error: unknown) => {
    throw outputError(out, error);
  });
  if (!force && !before.startsWith(pageMark)) {
    throw new OutputError(`${out} is there already and is no page of compare; --force replaces it`);
  }
}

/** Whole or not at all: written beside under a name that nobody has, then renamed. */
async function writePage(out: string, page: string, cwd: string): Promise<void> {
  const target = resolve(cwd, out);
  const beside = `${target}.new-${randomBytes(4).toString("hex")}`;
  try {
    await mkdir(dirname(target), { recursive: true });
    await writeFile(beside, page, { flag: "wx" });
    await rename(beside, target);
  } catch (error) {
    await rm(beside, { force: true });
    throw outputError(out, error);
  }
}
