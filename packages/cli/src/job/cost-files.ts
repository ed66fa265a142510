import { type CostEstimate, compareKits } from "../cost/index.js";
import { costCsv } from "../output/cost-csv.js";
import { costWorkbook } from "../output/cost-workbook.js";
import { type Difference, differenceCsv } from "../output/difference-csv.js";
import type { OutputFile } from "../output/folder.js";
import { hardwareCsv } from "../output/hardware-csv.js";
import { jobRecord } from "../output/job-record.js";
import { kitsCsv, stepsCsv } from "../output/kits-csv.js";
import { distinctFindings } from "./distinct-findings.js";
import type { Job, JobWish } from "./job.js";
import { jobPage } from "./job-page.js";

/**
 * The material-and-cost sheets of one frame at several numbers of kits: for each its lines, hardware and workbook, all of
 * them side by side, what differs from another estimate, and a page with the charts. The page and the record are those of the largest number.
 */
export async function costFiles(
  jobs: readonly Job[],
  estimates: readonly CostEstimate[],
  wish: Omit<JobWish, "kits">,
  differences: readonly Difference[] = [],
): Promise<OutputFile[]> {
  const comparison = compareKits(estimates);
  const [job, estimate] = [jobs.at(-1), estimates.at(-1)];
  if (job === undefined || estimate === undefined) throw new RangeError("no number of kits to write");
  const findings = distinctFindings([...job.findings, ...estimate.findings]);
  const several = estimates.length > 1;
  const files: OutputFile[] = several
    ? [
        { path: "kits.csv", content: kitsCsv(comparison) },
        { path: "steps.csv", content: stepsCsv(comparison) },
      ]
    : [];
  for (const each of estimates) {
    const ending = several ? `-${each.kits}` : "";
    files.push(
      { path: `cost${ending}.csv`, content: costCsv(each) },
      { path: `cost${ending}.xlsx`, content: await costWorkbook(each, several ? comparison : undefined) },
      { path: `hardware${ending}.csv`, content: hardwareCsv(each) },
    );
  }
  if (differences.length > 0) files.push({ path: "difference.csv", content: differenceCsv(differences) });
  const page = jobPage({
    job,
    findings,
    estimate,
    batches: estimates,
    sheetFiles: [],
    files: files.map((file) => file.path),
  });
  const record = jobRecord({
    frame: job.frame,
    quantity: job.quantity,
    seed: wish.search.seed,
    demand: job.demand,
    shop: job.input.shop,
    stock: job.input.stock,
    groups: job.groups,
    sheetFiles: [],
    drawings: [],
    bridges: new Map(),
    findings,
    estimate,
    files: [...files, page],
  });
  return [...files, page, record];
}
