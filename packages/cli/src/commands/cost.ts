import { COST_GROUPS, type CostEstimate, type CostGroup, moneyText } from "../cost/index.js";
import { exitCodes } from "../exit-codes.js";
import { hasErrors } from "../job/derived.js";
import { type JobWish, layOutJob, readJobInput } from "../job/job.js";
import { priced } from "../job/priced.js";
import { stableJson } from "../output/stable-json.js";
import { findingsText } from "../screen/findings-text.js";
import { counted } from "../screen/number-text.js";
import { progressOn } from "../screen/progress.js";
import type { Screen } from "../screen/screen.js";
import { table } from "../screen/table.js";
import { searchWish } from "./job-wish.js";
import { kitsNumbers } from "./numbers.js";
import { type SearchOptions, settingsOf } from "./options.js";
import { stopped } from "./stopped.js";

/** What a frame takes and costs, side by side for several numbers of kits. */
export async function cost(path: string, options: SearchOptions, screen: Screen): Promise<number> {
  const counts = kitsNumbers(options.kits);
  const base = searchWish(options);
  const input = await readJobInput(path, settingsOf(options), screen.cwd);
  const progress = await progressOn(screen, counts.length * 4);
  try {
    const estimates: CostEstimate[] = [];
    for (const kits of counts) {
      const wish: JobWish = { kits, ...base };
      const job = await layOutJob(input, wish, progress, screen.signal);
      if (hasErrors(job.findings)) return stopped("cost", job.findings, options, screen);
      progress.stage("reckoning costs");
      const estimate = await priced(job, wish);
      if (hasErrors(estimate.findings)) return stopped("cost", estimate.findings, options, screen);
      estimates.push(estimate);
    }
    progress.end();
    screen.print(
      options.json === true
        ? stableJson({ format: "keelcut-cost", version: 1, ok: true, estimates })
        : text(estimates, screen),
    );
    return exitCodes.fine;
  } finally {
    progress.end();
  }
}

function text(estimates: readonly CostEstimate[], screen: Screen): string {
  const amounts = (name: string, amount: (estimate: CostEstimate) => number): string[] => [
    name,
    ...estimates.map((estimate) => moneyText(amount(estimate), estimate.exponent)),
  ];
  const used = COST_GROUPS.filter((group: CostGroup) =>
    estimates.some((estimate) => estimate.totals.groups[group] !== 0),
  );
  const selling = estimates.every((estimate) => estimate.perKit.sellingPrice !== undefined);
  const rows = [
    ...used.map((group) => amounts(group, (estimate) => estimate.totals.groups[group])),
    amounts("total", (estimate) => estimate.totals.total),
    amounts("a kit", (estimate) => estimate.perKit.total),
    ...(selling ? [amounts("selling price a kit", (estimate) => estimate.perKit.sellingPrice ?? 0)] : []),
    ["sheets cut", ...estimates.map((estimate) => String(sheetsCut(estimate)))],
    ["sheets at least", ...estimates.map((estimate) => String(sheetsAtLeast(estimate)))],
  ];
  const [first] = estimates;
  const columns = [
    { title: first?.currency ?? "" },
    ...estimates.map((estimate) => ({ title: counted(estimate.kits, "kit"), right: true })),
  ];
  const warnings = (first?.findings ?? []).filter((finding) => finding.severity === "warning");
  return [table(columns, rows), ...(warnings.length > 0 ? ["", findingsText(warnings, screen)] : [])].join(
    "\n",
  );
}

function sheetsCut(estimate: CostEstimate): number {
  return estimate.material.reduce((sum, use) => sum + use.sheetCount, 0);
}

function sheetsAtLeast(estimate: CostEstimate): number {
  return estimate.material.reduce((sum, use) => sum + use.leastSheets, 0);
}
