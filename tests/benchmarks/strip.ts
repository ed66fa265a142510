import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { packStrip, type StripResult } from "../../packages/nesting/dist/index.js";
import { checkLayout, type LayoutCheck, type PlacedPolygon, placedRing } from "./layout-check.js";
import { published } from "./published.js";

/**
 * Densities on irregular strip-packing instances of the literature.
 *
 *     bench:strip [--data DIR] [--only a,b] [--seconds S] [--seeds N] [--json FILE] [--pictures DIR] [--workers W]
 *
 * Prints a table and, with --json, writes {instances: [{name, densities: [..], mean, best, ...}]}, densities in
 * percent. A layout that the independent check refuses is an error, never a density.
 */
interface InstanceFile {
  readonly name: string;
  readonly stripHeight: number;
  readonly totalArea: number;
  readonly items: readonly {
    readonly demand: number;
    readonly rotationsDeg: readonly number[] | "any";
    readonly polygon: readonly (readonly [number, number])[];
  }[];
}

interface Run {
  readonly seed: number;
  readonly density: number;
  readonly length: number;
  readonly seconds: number;
  readonly secondsToFirst: number;
  readonly evaluations: number;
  readonly check: LayoutCheck;
}

/** An overlap of a millionth of the smaller item is rounding: a few hundred-millionths of a plate's width. */
const LARGEST_OVERLAP = 1e-6;

type Row = ReturnType<typeof rowOf> & { readonly faults?: readonly string[] };

const { values } = parseArgs({
  options: {
    data: { type: "string" },
    only: { type: "string" },
    seconds: { type: "string", default: "60" },
    seeds: { type: "string", default: "3" },
    json: { type: "string" },
    pictures: { type: "string" },
    workers: { type: "string", default: "2" },
  },
});
const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = values.data ?? join(root, "../shared/benchmarks/strip");
if (!existsSync(folder)) {
  console.error(
    `There are no instances in ${folder}; give a folder of them with --data (see the guide to packing)`,
  );
  process.exit(2);
}
const only = values.only?.split(",");
const files = readdirSync(folder)
  .filter((file) => file.endsWith(".json"))
  .filter((file) => only === undefined || only.includes(file.slice(0, -".json".length)))
  .sort();
if (files.length === 0) throw new Error(`No instances in ${folder}`);

const rows: Row[] = [];
console.log(header());
for (const file of files) {
  const instance = JSON.parse(readFileSync(join(folder, file), "utf8")) as InstanceFile;
  const name = file.slice(0, -".json".length);
  const runs: Run[] = [];
  const faults: string[] = [];
  for (let seed = 1; seed <= Number(values.seeds); seed++) {
    try {
      const { run, result } = await runOnce(instance, seed);
      const better = runs.every((other) => other.density < run.density);
      runs.push(run);
      if (values.pictures !== undefined && better) drawLayout(values.pictures, name, instance, result);
    } catch (error) {
      faults.push(`${name}, seed ${seed}: ${error instanceof Error ? error.message : error}`);
    }
  }
  // What other instances gave is not lost for one that failed.
  for (const fault of faults) console.error(fault);
  if (faults.length > 0) process.exitCode = 1;
  const row = { ...rowOf(name, runs), ...(faults.length > 0 && { faults }) };
  rows.push(row);
  console.log(line(row));
  writeReport();
}
const meanRatio = meanOf(rows);
if (meanRatio !== undefined) console.log(`mean of (mean density / published best): ${meanRatio.toFixed(4)}`);

/** What is known so far, so that a run that is stopped leaves something. */
function writeReport(): void {
  if (values.json === undefined) return;
  const report = {
    seconds: Number(values.seconds),
    workers: Number(values.workers),
    meanRatio: meanOf(rows),
    instances: rows,
  };
  writeFileSync(values.json, `${JSON.stringify(report, null, 2)}\n`);
}

function meanOf(all: readonly Row[]): number | undefined {
  const ratios = all.flatMap(({ ratio }) => (ratio === undefined ? [] : [ratio]));
  return ratios.length === 0 ? undefined : ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
}

async function runOnce(instance: InstanceFile, seed: number): Promise<{ run: Run; result: StripResult }> {
  const began = performance.now();
  let secondsToFirst = 0;
  const result = await packStrip(
    {
      height: instance.stripHeight,
      items: instance.items.map((item) => ({
        polygon: { outer: Float64Array.from(item.polygon.flat()), openings: [] },
        demand: item.demand,
        rotations: item.rotationsDeg,
      })),
    },
    { seconds: Number(values.seconds) },
    seed,
    {
      workers: Number(values.workers),
      onProgress: () => {
        secondsToFirst ||= (performance.now() - began) / 1000;
      },
    },
  );
  const seconds = (performance.now() - began) / 1000;
  const check = checkLayout(placed(instance, result), instance.stripHeight, result.length);
  if (check.worstOverlap > LARGEST_OVERLAP || check.worstOverhang > LARGEST_OVERLAP) {
    throw new Error(`${instance.name}, seed ${seed}: the layout is not valid: ${JSON.stringify(check)}`);
  }
  for (const [k, item] of instance.items.entries()) {
    const count = result.placements.filter((placement) => placement.item === k).length;
    if (count !== item.demand)
      throw new Error(`${instance.name}: ${count} of item ${k} instead of ${item.demand}`);
  }
  return {
    run: {
      seed,
      density: (100 * instance.totalArea) / (instance.stripHeight * result.length),
      length: result.length,
      seconds,
      secondsToFirst,
      evaluations: result.evaluations,
      check,
    },
    result,
  };
}

function placed(instance: InstanceFile, result: StripResult): PlacedPolygon[] {
  return result.placements.map((placement) => ({
    ...placement,
    polygon: instance.items[placement.item]?.polygon ?? [],
  }));
}

function rowOf(name: string, runs: readonly Run[]) {
  const densities = runs.map((run) => run.density);
  // Without a valid layout nothing was reached.
  const mean = densities.reduce((sum, density) => sum + density, 0) / Math.max(1, densities.length);
  const best = Math.max(0, ...densities);
  const reference = published[name];
  const evaluations = runs.reduce((sum, run) => sum + run.evaluations, 0);
  return {
    name,
    densities,
    mean,
    best,
    ...(reference === undefined
      ? {}
      : {
          publishedBest: reference.best,
          publishedAverage: reference.average,
          ratio: mean / reference.best,
          beaten: best > reference.best,
        }),
    evaluationsPerSecond:
      evaluations /
      Math.max(
        1e-9,
        runs.reduce((sum, run) => sum + run.seconds, 0),
      ),
    secondsToFirst: Math.max(0, ...runs.map((run) => run.secondsToFirst)),
    megabytes: process.memoryUsage().rss / 2 ** 20,
    runs,
  };
}

function header(): string {
  return "instance      mean    best  published  ratio   Mevals/s  first s     MB  worst overlap";
}

function line(row: ReturnType<typeof rowOf>): string {
  const worst = Math.max(0, ...row.runs.map((run) => run.check.worstOverlap));
  return [
    row.name.padEnd(10),
    row.mean.toFixed(2).padStart(7),
    row.best.toFixed(2).padStart(7),
    (row.publishedBest?.toFixed(2) ?? "").padStart(10),
    (row.ratio?.toFixed(4) ?? "").padStart(7),
    (row.evaluationsPerSecond / 1e6).toFixed(2).padStart(9),
    row.secondsToFirst.toFixed(2).padStart(8),
    row.megabytes.toFixed(0).padStart(6),
    worst.toExponential(1).padStart(9),
  ].join(" ");
}

/** One picture of a layout, y up. */
function drawLayout(directory: string, name: string, instance: InstanceFile, result: StripResult): void {
  mkdirSync(directory, { recursive: true });
  const height = instance.stripHeight;
  const paths = placed(instance, result).map((item) => {
    const corners = placedRing(item).map(([x, y]) => `${x} ${height - y}`);
    const hue = ((instance.items.findIndex((kind) => kind.polygon === item.polygon) * 137) % 360).toFixed(0);
    return `<path d="M${corners.join("L")}Z" fill="hsl(${hue} 55% 75%)"/>`;
  });
  const margin = height / 50;
  writeFileSync(
    join(directory, `${name}.svg`),
    `<svg xmlns="http://www.w3.org/2000/svg" width="900" viewBox="${-margin} ${-margin} ${result.length + 2 * margin} ${height + 2 * margin}">
<g stroke="#333" stroke-width="${height / 800}"><rect width="${result.length}" height="${height}" fill="#f4f4f4"/>
${paths.join("\n")}</g></svg>
`,
  );
}
