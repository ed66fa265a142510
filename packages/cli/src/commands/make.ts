import { type CostEstimate, compareKits } from "../cost/index.js";
import { exitCodes } from "../exit-codes.js";
import { chartCounts } from "../job/chart-counts.js";
import { plateFiles, sheetFiles } from "../job/cut-files.js";
import { type CutStyle, cutStyle } from "../job/cut-style.js";
import { hasErrors } from "../job/derived.js";
import { distinctFindings } from "../job/distinct-findings.js";
import { layOutCounts, readJobInput } from "../job/job.js";
import { jobCuttingList } from "../job/job-cutting-list.js";
import { jobOffcuts } from "../job/job-offcuts.js";
import { jobPage } from "../job/job-page.js";
import { paperFiles } from "../job/paper-files.js";
import { priced } from "../job/priced.js";
import { type DrawnRecord, drawnRecords, proved } from "../job/proved.js";
import { costCsv } from "../output/cost-csv.js";
import { costWorkbook } from "../output/cost-workbook.js";
import { checkDestination, type Destination } from "../output/destination.js";
import { type OutputFile, writeFolder } from "../output/folder.js";
import { hardwareCsv } from "../output/hardware-csv.js";
import { fileWord } from "../output/index.js";
import { jobRecord } from "../output/job-record.js";
import { stableJson } from "../output/stable-json.js";
import { type Made, makeJson, makeText } from "../screen/make-text.js";
import { progressOn } from "../screen/progress.js";
import type { Screen } from "../screen/screen.js";
import { resumedWish } from "./job-wish.js";
import { type OutputOptions, type PaperOptions, type ResumeOptions, settingsOf } from "./options.js";
import { paperWish } from "./paper-wish.js";
import { stopped } from "./stopped.js";

/**
 * All of it: plates, checks, sheets, cut files, costs, page and record. Exit code 1, and nothing written, when a finding
 * is an error or a plate did not fit.
 */
export async function make(
  path: string,
  options: OutputOptions & PaperOptions & ResumeOptions,
  screen: Screen,
): Promise<number> {
  const wish = await resumedWish(options, screen.cwd);
  const input = await readJobInput(path, settingsOf(options), screen.cwd);
  const paper = paperWish(options, input.shop);
  const destination: Destination = {
    out: options.out ?? `out/${fileWord(input.parameters.name)}`,
    cwd: screen.cwd,
    force: options.force === true,
    inputs: input.files,
  };
  await checkDestination(destination);

  const progress = await progressOn(screen, 7);
  try {
    const jobs = await layOutCounts(input, chartCounts(wish.kits), wish, progress, screen.signal);
    const job = jobs.at(-1);
    if (job === undefined) throw new RangeError("no number of kits");
    if (hasErrors(job.findings)) return stopped("make", job.findings, options, screen, progress);

    progress.stage("drawing");
    const style = cutStyle(job);
    const sheets = sheetFiles(job.groups, style);
    const plates = plateFiles(job.frame.plates, job.demand, style);
    progress.stage("reading back");
    const { frame, demand } = job;
    const certificate = proved({
      sheets,
      plateFiles: plates,
      plates: frame.plates,
      demand,
      style,
    });
    progress.stage("reckoning costs");
    const batches: CostEstimate[] = [];
    for (const each of jobs) if (!hasErrors(each.findings)) batches.push(await priced(each, wish));
    const estimate = batches.at(-1) ?? (await priced(job, wish));
    const findings = [
      ...job.findings,
      // A plate is drawn on a sheet and alone: what both drawings say is said once.
      ...distinctFindings([...sheets.findings, ...plates.findings]),
      ...certificate.findings,
      ...estimate.findings,
    ];
    if (hasErrors(findings)) return stopped("make", findings, options, screen, progress);

    progress.stage("writing");
    const tables = [
      { path: "cost.csv", content: costCsv(estimate) },
      {
        path: "cost.xlsx",
        content: await costWorkbook(estimate, batches.length > 1 ? compareKits(batches) : undefined),
      },
      { path: "hardware.csv", content: hardwareCsv(estimate) },
      jobCuttingList(job, sheets.names),
      ...[jobOffcuts(job, estimate.material)].filter((file) => file !== undefined),
    ];
    const templates = await paperFiles(job, paper);
    const cut = [...sheets.files, ...plates.files, ...templates, ...tables];
    const made = { job, findings, estimate, certificate, destination, sheetFiles: sheets.names };
    const page = jobPage({
      ...made,
      batches,
      bridges: style.bridges,
      files: cut.map((file) => file.path),
    });
    const files = withRecord([...cut, page], made, drawnRecords(sheets, plates), style, wish.search.seed);
    await writeFolder(destination, files);
    progress.end();
    report(
      { ...made, files: files.map((file) => file.path), stoppedEarly: screen.signal.aborted },
      options,
      screen,
    );
    return exitCodes.fine;
  } finally {
    progress.end();
  }
}

type Parts = Omit<Made, "files" | "stoppedEarly">;

function withRecord(
  files: readonly OutputFile[],
  { job, findings, estimate, sheetFiles }: Parts,
  drawings: readonly DrawnRecord[],
  style: CutStyle,
  seed: number,
): OutputFile[] {
  const record = jobRecord({
    frame: job.frame,
    quantity: job.quantity,
    seed,
    demand: job.demand,
    shop: job.input.shop,
    stock: job.input.stock,
    groups: job.groups,
    sheetFiles,
    drawings,
    bridges: style.bridges.byPlate,
    findings,
    estimate,
    files,
  });
  return [...files, record];
}

function report(made: Made, options: OutputOptions, screen: Screen): void {
  screen.print(options.json === true ? stableJson(makeJson(made)) : makeText(made, screen));
}
