import { parseArgs } from "node:util";
import { regionArea } from "../../packages/geometry/dist/index.js";
import { type NestJob, type NestResult, nest, verify } from "../../packages/nesting/dist/index.js";
import { sheetJobs } from "./sheet-jobs.js";

/**
 * Time, cost and yield of sheet packing on made-up jobs.
 *
 *     bench:sheets [--only TEXT] [--steps N | --seconds S]
 *
 * Prints what each job is made of, seconds to the first complete layout and to the end, and an untimed checksum of the
 * placements. A layout that `verify` refuses is an error.
 */
const { values } = parseArgs({
  options: {
    only: { type: "string", default: "" },
    steps: { type: "string" },
    seconds: { type: "string" },
  },
});

console.log("job           kinds copies corners  first s  total s   steps sheets    cost  yield %  checksum");
for (const { name, job } of sheetJobs()) {
  if (!name.includes(values.only)) continue;
  const effort = {
    ...(values.steps === undefined ? {} : { steps: Number(values.steps) }),
    ...(values.seconds === undefined ? {} : { seconds: Number(values.seconds) }),
  };
  await run(name, { ...job, effort });
}

async function run(name: string, job: NestJob): Promise<void> {
  const began = performance.now();
  let first = 0;
  const result = await nest(job, {
    onProgress: () => {
      first ||= performance.now() - began;
    },
  });
  const total = performance.now() - began;
  const [violation] = verify(job, result);
  if (violation) throw new Error(`${name}: ${violation.message}`);
  const copies = job.parts.reduce((sum, part) => sum + part.demand, 0);
  const corners = job.parts.reduce((sum, part) => sum + part.region.outer.length, 0);
  const area = job.parts.reduce((sum, part) => sum + part.demand * regionArea(part.region), 0);
  if (area <= 0) throw new Error(`${name}: the job has no plates`);
  console.log(
    [
      name.padEnd(12),
      String(job.parts.length).padStart(6),
      String(copies).padStart(6),
      String(corners).padStart(7),
      (first / 1000).toFixed(2).padStart(8),
      (total / 1000).toFixed(2).padStart(8),
      String(result.steps).padStart(7),
      String(result.sheets.reduce((sum, sheet) => sum + sheet.times, 0)).padStart(6),
      result.cost.toFixed(0).padStart(7),
      (100 * result.yield).toFixed(2).padStart(8),
      checksum(result).padStart(9),
    ].join(" "),
  );
}

/** Sum of all coordinates and angles, to the micrometre: the same for the same layout. */
function checksum(result: NestResult): string {
  let sum = 0;
  for (const sheet of result.sheets) {
    for (const { x, y, rotation } of sheet.placements) sum += sheet.times * (x + 2 * y + rotation);
  }
  return sum.toFixed(3);
}
