import type { Finding } from "@keelcut/geometry";
import { type CostEstimate, compareEstimates, compareKits } from "../cost/index.js";
import { exitCodes } from "../exit-codes.js";
import { inputError } from "../input/input-error.js";
import { costFiles } from "../job/cost-files.js";
import { hasErrors } from "../job/derived.js";
import { distinctFindings, findingKey } from "../job/distinct-findings.js";
import { type Job, type JobWish, layOutCounts, readJobInput } from "../job/job.js";
import { priced } from "../job/priced.js";
import type { CompleteInput } from "../job/requirements.js";
import { checkDestination, type Destination } from "../output/destination.js";
import type { Difference } from "../output/difference-csv.js";
import { writeFolder } from "../output/folder.js";
import { stableJson } from "../output/stable-json.js";
import { findingsBeside, resumeTexts, unpricedTexts } from "../screen/beside-costs.js";
import { byReason } from "../screen/by-reason.js";
import { findingsText } from "../screen/findings-text.js";
import { differenceText, kitsText } from "../screen/kits-text.js";
import { STOPPED_EARLY } from "../screen/make-text.js";
import { counted, numberText } from "../screen/number-text.js";
import { type Progress, progressOn } from "../screen/progress.js";
import { type Screen, textWidth } from "../screen/screen.js";
import { wrapped } from "../screen/wrapped.js";
import { earlierPlan, searchWish } from "./job-wish.js";
import { kitsNumbers } from "./numbers.js";
import { type CostOptions, settingsOf } from "./options.js";
import { stopped } from "./stopped.js";

/**
 * What a frame takes and costs, side by side for several numbers of kits; against another frame, shop or stock list; with
 * `--out` also as tables, workbooks and a page.
 */
export async function cost(path: string, options: CostOptions, screen: Screen): Promise<number> {
  const counts = kitsNumbers(options.kits).sort((a, b) => a - b);
  const wish = { ...searchWish(options), ...(await earlierPlan(options, screen.cwd)) };
  const input = await readJobInput(path, settingsOf(options), screen.cwd);
  const other = await otherInput(path, options, screen.cwd);
  if (other !== undefined) refuseOtherCurrency(input, other, options);
  const inputs = [...input.files, ...(other?.files ?? [])];
  const destination =
    options.out === undefined ? undefined : destinationOf(options, options.out, inputs, screen);
  if (destination !== undefined) await checkDestination(destination);

  const progress = await progressOn(screen, 6 * (other === undefined ? 1 : 2));
  try {
    const first = await reckoned(input, counts, wish, progress, screen.signal);
    if (hasErrors(first.findings)) return stopped("cost", first.findings, options, screen, progress);
    const second = other && (await reckoned(other, counts, wish, progress, screen.signal));
    if (second && hasErrors(second.findings))
      return stopped("cost", second.findings, options, screen, progress);
    const against = second && differences(first.estimates, second.estimates);

    const files =
      destination === undefined ? [] : await costFiles(first.jobs, first.estimates, wish, against);
    if (destination !== undefined) await writeFolder(destination, files);
    progress.end();
    const { estimates } = first;
    if (options.json === true) {
      const comparison = compareKits(estimates);
      const { findings } = first;
      const otherFindings = second?.findings;
      const ends = { out: options.out, stoppedEarly: screen.signal.aborted };
      const facts = { estimates, comparison, against, findings, otherFindings, ...ends };
      screen.print(stableJson({ format: "keelcut-cost", version: 1, ok: true, ...facts }));
    } else {
      screen.print(costText(estimates, first.findings, screen));
      if (screen.signal.aborted) screen.print(`\n${STOPPED_EARLY}`);
      if (second && against) {
        screen.print(againstText(against, nameOf(options)));
        const texts = otherTexts(first, second, screen);
        if (texts.length > 0) screen.print(`\nOf the other:\n${texts.join("\n")}`);
      }
      if (destination !== undefined)
        screen.print(`\nWrote ${destination.out} (${counted(files.length, "file")})`);
    }
    return exitCodes.fine;
  } finally {
    progress.end();
  }
}

interface Reckoned {
  readonly jobs: readonly Job[];
  readonly estimates: readonly CostEstimate[];
  /** Of the layout and the estimate, each said once. */
  readonly findings: readonly Finding[];
}

async function reckoned(
  input: CompleteInput,
  counts: readonly number[],
  wish: Omit<JobWish, "kits">,
  progress: Progress,
  signal: AbortSignal,
): Promise<Reckoned> {
  const jobs = await layOutCounts(input, counts, wish, progress, signal);
  const findings = jobs.flatMap((job) => job.findings);
  if (hasErrors(findings)) return { jobs, estimates: [], findings: distinctFindings(findings) };
  progress.stage("reckoning costs");
  const estimates: CostEstimate[] = [];
  for (const job of jobs) estimates.push(await priced(job, wish));
  const all = [...findings, ...estimates.flatMap((estimate) => estimate.findings)];
  return { jobs, estimates, findings: distinctFindings(all) };
}

/** The other side of a comparison: another frame, or the same one at another shop or with another stock list. */
async function otherInput(
  path: string,
  options: CostOptions,
  cwd: string,
): Promise<CompleteInput | undefined> {
  const { against, againstShop, againstStock } = options;
  if (against === undefined && againstShop === undefined && againstStock === undefined) return undefined;
  // In quotes: a path with # or : in it is a path all the same.
  const settings = [
    ...(against === undefined ? settingsOf(options) : []),
    ...(againstShop === undefined ? [] : [`shop=${JSON.stringify(againstShop)}`]),
    ...(againstStock === undefined ? [] : [`stock=${JSON.stringify(againstStock)}`]),
  ];
  return readJobInput(against ?? path, settings, cwd);
}

function refuseOtherCurrency(input: CompleteInput, other: CompleteInput, options: CostOptions): void {
  const [here, there] = [input.shop.currency, other.shop.currency];
  if (here === there) return;
  const flags = Object.entries({
    "--against": options.against,
    "--against-shop": options.againstShop,
    "--against-stock": options.againstStock,
  }).flatMap(([flag, value]) => (value === undefined ? [] : [flag]));
  throw inputError(
    flags.join(", "),
    `${nameOf(options)} is priced in ${there}, ${input.parameters.name} in ${here}: give both in one currency`,
  );
}

function nameOf({ against, againstShop, againstStock }: CostOptions): string {
  return [against, againstShop, againstStock].filter((each) => each !== undefined).join(", ");
}

function differences(before: readonly CostEstimate[], after: readonly CostEstimate[]): Difference[] {
  return before.flatMap((estimate, index) => {
    const other = after[index];
    return other === undefined ? [] : [{ kits: estimate.kits, ...compareEstimates(estimate, other) }];
  });
}

function destinationOf(
  options: CostOptions,
  out: string,
  inputs: readonly string[],
  screen: Screen,
): Destination {
  return { out, cwd: screen.cwd, force: options.force === true, inputs };
}

/** What only the other side of the comparison lacks, and what became of its layouts. */
function otherTexts(first: Reckoned, second: Reckoned, screen: Screen): string[] {
  const width = textWidth(screen);
  const lacking = (of: Reckoned): string[] => of.estimates.slice(-1).flatMap(unpricedTexts);
  const known = lacking(first);
  const warnings = ofOther(first.findings, findingsBeside(second.findings, second.estimates));
  return [
    ...lacking(second)
      .filter((text) => !known.includes(text))
      .map((text) => wrapped(text, width, "  ")),
    ...resumeTexts(second.findings, width),
    ...(warnings.length > 0 ? [findingsText(warnings, screen)] : []),
  ];
}

/** Warnings that only the other side of the comparison has. */
function ofOther(findings: readonly Finding[], others: readonly Finding[]): Finding[] {
  const known = new Set(findings.map(findingKey));
  return others.filter((each) => each.severity === "warning" && !known.has(findingKey(each)));
}

function costText(estimates: readonly CostEstimate[], findings: readonly Finding[], screen: Screen): string {
  const width = textWidth(screen);
  const warnings = findingsBeside(findings, estimates).filter(({ severity }) => severity === "warning");
  const unpriced = estimates.at(-1);
  return [
    kitsText(compareKits(estimates), width),
    "",
    ...(unpriced === undefined ? [] : unpricedTexts(unpriced).map((text) => wrapped(text, width, "  "))),
    wrapped(massText(estimates), width, "  "),
    ...resumeTexts(findings, width),
    ...(warnings.length > 0 ? ["", findingsText(warnings, screen)] : []),
  ].join("\n");
}

/** Postage goes by mass: what one kit weighs, and what nobody gave the mass of. */
function massText([estimate]: readonly CostEstimate[]): string {
  if (estimate === undefined) return "";
  const { total, missing } = estimate.weights;
  const kilograms = `Mass of a kit: ${numberText(total / 1000, 2)} kg without packaging`;
  if (missing.length === 0) return kilograms;
  const groups = byReason(missing).map(({ why, things }) => `${things.join(", ")} (${why})`);
  return `${kilograms}, and without ${groups.join("; ")}`;
}

function againstText(against: readonly Difference[], name: string): string {
  return against
    .map(
      (each) => `\n${counted(each.kits, "kit")} against ${name}\n${differenceText(each, ["this", "other"])}`,
    )
    .join("\n");
}
