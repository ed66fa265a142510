import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { compileInstance } from "../../packages/nesting/dist/search/instance.js";
import { improveStrip, newStripSearch } from "../../packages/nesting/dist/strip/strip-search.js";

/**
 * How the strip search grows with copies and with corners, on one thread.
 *
 *     bench:growth [--data DIR] [--instance shapes1] [--copies 1,2,4,8,16] [--corners 1,2,4] [--seconds S]
 *
 * `corners` puts that many corners on every edge, all on a slight bow outward, so that none is redundant. Times are CPU
 * times of this process: on a loaded machine they still compare.
 */
const { values } = parseArgs({
  options: {
    data: { type: "string" },
    instance: { type: "string", default: "shapes1" },
    copies: { type: "string", default: "1,2,4,8,16" },
    corners: { type: "string", default: "1,2,4" },
    seconds: { type: "string", default: "3" },
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
const file = JSON.parse(readFileSync(join(folder, `${values.instance}.json`), "utf8")) as {
  readonly stripHeight: number;
  readonly items: readonly {
    readonly demand: number;
    readonly rotationsDeg: readonly number[];
    readonly polygon: readonly (readonly [number, number])[];
  }[];
};

console.log("items  corners/item  regions ms  first layout ms  searches/s  Mevals/s     MB");
for (const copies of numbers(values.copies)) measure(copies, 1);
for (const corners of numbers(values.corners)) if (corners > 1) measure(1, corners);

function measure(copies: number, corners: number): void {
  const kinds = file.items.map((item) => ({
    polygon: { outer: bowed(item.polygon, corners), openings: [] },
    demand: item.demand * copies,
    turns: item.rotationsDeg.map((rotation) => ({ rotation, mirrored: false })),
  }));
  const began = cpu();
  const instance = compileInstance(kinds, []);
  const compiled = cpu();
  const strip = newStripSearch(instance, file.stripHeight, 1, () => 0);
  const first = cpu();
  const steps = strip.search.steps;
  const evaluations = strip.search.evaluations;
  const course = improveStrip(strip);
  while (cpu() - first < 1000 * Number(values.seconds)) course.next();
  const spent = (cpu() - first) / 1000;
  const perItem = kinds.reduce((sum, kind) => sum + kind.polygon.outer.length / 2, 0) / kinds.length;
  console.log(
    [
      String(instance.movable).padStart(5),
      perItem.toFixed(1).padStart(13),
      (compiled - began).toFixed(0).padStart(11),
      (first - compiled).toFixed(0).padStart(16),
      ((strip.search.steps - steps) / spent).toFixed(0).padStart(11),
      ((strip.search.evaluations - evaluations) / spent / 1e6).toFixed(2).padStart(9),
      (process.memoryUsage().rss / 2 ** 20).toFixed(0).padStart(6),
    ].join(" "),
  );
}

/** Milliseconds of CPU this process has used. */
function cpu(): number {
  return process.cpuUsage().user / 1000;
}

/** The polygon with every edge cut in `parts`, the new corners pushed out by up to a thousandth of the edge. */
function bowed(polygon: readonly (readonly [number, number])[], parts: number): Float64Array {
  return Float64Array.from(
    polygon.flatMap(([ax, ay], i) => {
      const [bx, by] = polygon[(i + 1) % polygon.length] as readonly [number, number];
      return Array.from({ length: parts }, (_, k) => {
        const t = k / parts;
        const out = 0.004 * t * (1 - t);
        return [ax + t * (bx - ax) + out * (by - ay), ay + t * (by - ay) - out * (bx - ax)];
      }).flat();
    }),
  );
}

function numbers(list: string): number[] {
  return list.split(",").map(Number);
}
