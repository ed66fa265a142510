import { exitCodes } from "../exit-codes.js";
import { sheetFiles } from "../job/cut-files.js";
import { cutStyle } from "../job/cut-style.js";
import { hasErrors } from "../job/derived.js";
import { layOutJob, readJobInput } from "../job/job.js";
import { drawnRecords, proved } from "../job/proved.js";
import { checkDestination } from "../output/destination.js";
import { writeFolder } from "../output/folder.js";
import { jobRecord } from "../output/job-record.js";
import { stableJson } from "../output/stable-json.js";
import { layoutJson, layoutTable } from "../screen/layout-table.js";
import { planJson, planText } from "../screen/plan-text.js";
import { progressOn } from "../screen/progress.js";
import type { Screen } from "../screen/screen.js";
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
    if (hasErrors(job.findings)) return stopped("nest", job.findings, options, screen);
    const style = cutStyle(job);
    const sheets = sheetFiles(job.groups, style);
    progress.stage("reading back");
    const { frame, demand } = job;
    const certificate = proved({ sheets, plates: frame.plates, demand, style });
    const findings = [...job.findings, ...sheets.findings, ...certificate.findings];
    if (hasErrors(findings)) return stopped("nest", findings, options, screen);
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
    const layouts = layoutJson(job.groups, sheets.names);
    if (options.json === true) {
      const facts = { ok: true, out: options.out, layouts, plans: planJson(job.groups), findings };
      screen.print(stableJson({ format: "keelcut-nest", version: 1, ...facts }));
    } else {
      const dropped = job.findings.filter(({ id }) => id === "resume.dropped");
      const notes = dropped.map(({ place, message }) => `Note ${place}: ${message}`);
      screen.print([layoutTable(layouts), ...planText(job.groups), ...notes].join("\n"));
      if (options.out !== undefined)
        screen.print(`\nWrote ${options.out}: ${sheets.files.length + 1} files.`);
    }
    return exitCodes.fine;
  } finally {
    progress.end();
  }
}
