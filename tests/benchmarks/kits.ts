import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { solveModel } from "../../packages/cli/dist/cost/lengths/linear-model.js";
import { readJobInput } from "../../packages/cli/dist/job/job.js";
import { sheetGroups } from "../../packages/cli/dist/job/sheet-groups.js";
import { deriveFrame, signedArea } from "../../packages/geometry/dist/index.js";
import {
  type BatchJob,
  type BatchPlan,
  DEFAULT_BATCH_STEPS,
  nest,
  planBatch,
} from "../../packages/nesting/dist/index.js";
import { type Baseline, priceAt, rectangleBaseline } from "./kits-baselines.js";
import { knownCases } from "./kits-cases.js";

/**
 * Plans of many kits of the example frames, on the smallest and on the largest sheet that can be bought of each material:
 * sheets, bound, gap, layouts, yield, processor seconds and peak memory, beside sheets filled one after another and
 * bounding rectangles; and jobs whose fewest sheets are known. `--sizes stock` plans on all the stock there is.
 *
 *     bench:kits [--frames teal,teal-110] [--sizes small,large] [--kits 1,10,100,300] [--only PE-HD] [--steps N]
 *                [--known] [--json FILE]
 *
 * Every plan has passed `verify`. Peak memory is that of the process so far, so each row's is at most what is shown.
 */
const { values } = parseArgs({
  options: {
    frames: { type: "string", default: "teal,teal-110" },
    sizes: { type: "string", default: "small,large" },
    kits: { type: "string", default: "1,10,100,300" },
    steps: { type: "string", default: `${DEFAULT_BATCH_STEPS}` },
    only: { type: "string" },
    known: { type: "boolean", default: false },
    json: { type: "string" },
  },
});
const root = fileURLToPath(new URL("../../", import.meta.url));
const steps = Number(values.steps);
const rows: object[] = [];
for (const frame of values.known ? [] : values.frames.split(",")) await benchFrame(frame);
if (values.known) await benchKnown();
if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify({ rows }, null, 2)}\n`);

async function benchFrame(name: string): Promise<void> {
  const input = await readJobInput(`examples/${name}/frame.yaml`, [], root);
  const frame = deriveFrame(input.parameters);
  const seconds = new Map<string, number>();
  for (const kits of values.kits.split(",").map(Number)) {
    const wish = { seed: 1, maxLayouts: 10_000 };
    const { groups } = sheetGroups(frame.plates, input, { kits, sparesPercent: 0 }, wish);
    for (const { material, batch } of groups) {
      if (batch === undefined || (values.only && !material.material.startsWith(values.only))) continue;
      const { maxLayouts: _, ...open } = batch;
      for (const { label, stock } of stocksOf(open, values.sizes.split(","))) {
        const what = `${material.material} ${material.thickness} on ${label}`;
        const took = await benchJob(`${name} x${kits}, ${what}`, { ...open, stock });
        seconds.set(`${kits} ${what}`, took);
        const before = seconds.get(`100 ${what}`);
        if (kits === 300 && before !== undefined) {
          console.log(`  growth     ${(took / before).toFixed(2)} times the processor seconds of 100 kits`);
        }
      }
    }
  }
}

/** Each size of sheet that can be bought, by itself; the smallest and the largest may be the same. */
function stocksOf(job: BatchJob, sizes: readonly string[]): { label: string; stock: BatchJob["stock"] }[] {
  const bought = job.stock
    .filter(({ available }) => available === "unlimited")
    .toSorted((a, b) => signedArea(a.outline) - signedArea(b.outline));
  const found = new Map<string, BatchJob["stock"]>();
  for (const size of sizes) {
    const one = size === "small" ? bought[0] : size === "large" ? bought.at(-1) : undefined;
    if (size === "stock") found.set("all stock", job.stock);
    else if (one !== undefined) found.set(one.id, [one]);
    else throw new RangeError(`--sizes takes small, large and stock, not ${size}`);
  }
  return [...found].map(([label, stock]) => ({ label, stock }));
}

async function benchKnown(): Promise<void> {
  for (const { name, job, optimum } of knownCases(steps)) {
    const { plan, seconds } = await timed(job);
    const proof = plan.optimal ? "proved" : `at least ${plan.leastSheets.value}`;
    console.log(`${name}: ${plan.sheetCount} sheets, optimum ${optimum}, ${proof}, ${seconds.toFixed(1)} s`);
    if (plan.leastSheets.value > optimum) throw new Error(`the bound exceeds the optimum of ${name}`);
    rows.push({ name, sheets: plan.sheetCount, optimum, bound: plan.leastSheets.value, seconds });
  }
}

async function benchJob(name: string, job: BatchJob): Promise<number> {
  const plates = job.parts.reduce((sum, part) => sum + part.demand, 0);
  const { plan, seconds, firstSeconds } = await timed({ ...job, effort: { steps } });
  const inOrder = await oneAfterAnother(job, plates);
  const boxes = rectangleBaseline(job);
  const memory = Math.round(process.resourceUsage().maxRSS / 1024);
  const facts = [
    `${name}: ${plates} plates of ${job.parts.length} kinds`,
    `  plan       ${baselineText({ sheets: plan.sheetCount, cost: stockCost(plan) })}, ${plan.layoutCount} layouts, yield ${percent(plan.yield)}`,
    `  bound      ${plan.leastSheets.value} sheets; whole cost ${plan.cost.toFixed(2)}, at least ${plan.leastCost.value.toFixed(2)}: ${plan.optimal ? "optimal" : `gap ${percent(plan.cost / plan.leastCost.value - 1)}`}`,
    `  in order   ${baselineText(inOrder)}`,
    `  rectangles ${boxes === undefined ? "do not fit" : baselineText(boxes)}`,
    `  processor  ${seconds.toFixed(1)} s, first plan ${firstSeconds.toFixed(1)} s; peak memory ${memory} MB; ${plan.steps} steps`,
    `  trade      ${plan.trade.map((row) => `${row.layouts} layouts ${row.sheets} sheets ${row.cost.toFixed(2)}`).join("; ")}`,
  ];
  console.log(facts.join("\n"));
  const { sheets: _, ...summary } = plan;
  rows.push({ name, plates, ...summary, inOrder, boxes, seconds, firstSeconds, memory });
  return seconds;
}

/** A plan with the processor's seconds to the first plan and to the last. */
async function timed(job: BatchJob): Promise<{ plan: BatchPlan; seconds: number; firstSeconds: number }> {
  const start = processorSeconds();
  let first: number | undefined;
  const plan = await planBatch(job, {
    solver: solveModel,
    onProgress: () => {
      first ??= processorSeconds() - start;
    },
  });
  const seconds = processorSeconds() - start;
  return { plan, seconds, firstSeconds: first ?? seconds };
}

/** The sheet packer alone with hardly more effort than one layout of everything takes. */
async function oneAfterAnother(job: BatchJob, plates: number): Promise<Baseline> {
  const result = await nest({ ...job, effort: { steps: 2 * plates } });
  let cost = 0;
  let sheets = 0;
  for (const stock of job.stock) {
    const own = result.sheets.filter((sheet) => sheet.stock === stock.id);
    const used = own.reduce((sum, sheet) => sum + sheet.times, 0);
    sheets += used;
    cost += used * priceAt(stock, used);
  }
  return { sheets, cost };
}

function stockCost(plan: BatchPlan): number {
  return plan.use.reduce((sum, { bought, each }) => sum + bought * each, 0);
}

function baselineText({ sheets, cost }: Baseline): string {
  return `${sheets} sheets, ${cost.toFixed(2)} of stock`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

function processorSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
