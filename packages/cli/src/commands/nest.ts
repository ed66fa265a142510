import type { Finding } from "@keelcut/geometry";
import { exitCodes } from "../exit-codes.js";
import { sheetFiles } from "../job/cut-files.js";
import { cutStyle } from "../job/cut-style.js";
import { hasErrors } from "../job/derived.js";
import { type Job, layOutJob, readJobInput } from "../job/job.js";
import { drawnRecords, proved } from "../job/proved.js";
import { checkDestination } from "../output/destination.js";
import { writeFolder } from "../output/folder.js";
import { jobRecord } from "../output/job-record.js";
import { stableJson } from "../output/stable-json.js";
import { resumeTexts } from "../screen/beside-costs.js";
import { bewareText } from "../screen/beware-text.js";
import { findingsCount, findingsText } from "../screen/findings-text.js";
import { type LayoutFacts, layoutJson, layoutTable } from "../screen/layout-table.js";
import { STOPPED_EARLY } from "../screen/make-text.js";
import { planJson, planText } from "../screen/plan-text.js";
import { progressOn } from "../screen/progress.js";
import { type Screen, textWidth } from "../screen/screen.js";
import { resumedWish } from "./job-wish.js";
import { type OutputOptions, type ResumeOptions, settingsOf } from "./options.js";
import { stopped } from "./stopped.js";

/**
 * Lays the plates on sheets and lists the layouts; with `--out` writes a cut file for each. Exit code 1, and nothing
 * written, when a finding is an error or a plate did not fit.
 */
export async function nest(
  path: string,
  options: OutputOptions & ResumeOptions,
  screen: Screen,
): Promise<number> {
  const wish = await resumedWish(options, screen.cwd);
  const input = await readJobInput(path, settingsOf(options), screen.cwd);
  const destination =
    options.out === undefined
      ? undefined
      : { out: options.out, cwd: screen.cwd, force: options.force === true, inputs: input.files };
  if (destination !== undefined) await checkDestination(destination);
  const progress = await progressOn(screen, 5);
  try {
    const job = await layOutJob(input, wish, progress, screen.signal);
    if (hasErrors(job.findings)) return stopped("nest", job.findings, options, screen, progress);
    const style = cutStyle(job);
    const sheets = sheetFiles(job.groups, style);
    progress.stage("reading back");
    const { frame, demand } = job;
    const certificate = proved({ sheets, plates: frame.plates, demand, style });
    const findings = [...job.findings, ...sheets.findings, ...certificate.findings];
    if (hasErrors(findings)) return stopped("nest", findings, options, screen, progress);
    if (destination !== undefined) {
      const record = jobRecord({
        frame,
        quantity: job.quantity,
        seed: wish.search.seed,
        demand,
        shop: input.shop,
        stock: input.stock,
        groups: job.groups,
        sheetFiles: sheets.names,
        drawings: drawnRecords(sheets),
        bridges: style.bridges.byPlate,
        findings,
        files: sheets.files,
      });
      await writeFolder(destination, [...sheets.files, record]);
    }
    progress.end();
    const laid: Laid = {
      job,
      findings,
      layouts: layoutJson(job.groups, sheets.names),
      stoppedEarly: screen.signal.aborted,
    };
    if (options.json === true) screen.print(nestJson(laid, options.out));
    else {
      screen.print(nestText(laid, screen));
      if (options.out !== undefined)
        screen.print(`\nWrote ${options.out}: ${sheets.files.length + 1} files.`);
    }
    return exitCodes.fine;
  } finally {
    progress.end();
  }
}

interface Laid {
  readonly job: Job;
  readonly findings: readonly Finding[];
  readonly layouts: readonly LayoutFacts[];
  readonly stoppedEarly: boolean;
}

function nestJson({ job, findings, layouts, stoppedEarly }: Laid, out: string | undefined): string {
  const facts = { ok: true, out, stoppedEarly, layouts, plans: planJson(job.groups), findings };
  return stableJson({ format: "keelcut-nest", version: 1, ...facts });
}

/** The layouts; and what the shop and whoever stands beside it must know, since no page is written. */
function nestText({ job, findings, layouts, stoppedEarly }: Laid, screen: Screen): string {
  const width = textWidth(screen);
  const warnings = findings.filter(({ severity }) => severity === "warning");
  return [
    layoutTable(layouts),
    ...planText(job.groups),
    ...resumeTexts(findings, width),
    ...(stoppedEarly ? [STOPPED_EARLY] : []),
    "",
    findingsCount(findings),
    ...(warnings.length > 0 ? [findingsText(warnings, screen)] : []),
    "",
    bewareText(job, screen, width),
  ].join("\n");
}
