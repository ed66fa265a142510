import {
  bounds,
  type Contour,
  contourFaults,
  type Region,
  type RegionFault,
  regionFaults,
  signedArea,
} from "@keelcut/geometry";
import type { Effort, NestJob, NestPart, Stock } from "./job.js";

/** One thing wrong with a job: where, what, and what would be right. */
export interface JobFault {
  /** Path of the field, for example `parts[2].region.openings[0]`. */
  readonly path: string;
  readonly what: string;
  readonly hint: string;
}

/** A job that cannot be packed as it stands. The message shows the first faults; `faults` has all of them. */
export class NestJobError extends Error {
  readonly faults: readonly JobFault[];

  constructor(faults: readonly JobFault[]) {
    const shown = faults.slice(0, 5).map((fault) => `${fault.path}: ${fault.what}; ${fault.hint}`);
    const rest = faults.length > 5 ? [`and ${faults.length - 5} more`] : [];
    super([...shown, ...rest].join("\n"));
    this.name = "NestJobError";
    this.faults = faults;
  }
}

/** Throws a `NestJobError` unless the job is sound. */
export function assertJob(job: NestJob): void {
  const faults = jobFaults(job);
  if (faults.length > 0) throw new NestJobError(faults);
}

/** Everything that is wrong with a job, in the order of its fields; empty for a sound one. */
export function jobFaults(job: NestJob): JobFault[] {
  const report = new Report();
  job.parts.forEach((part, index) => {
    checkPart(report, `parts[${index}]`, part);
  });
  checkUnique(report, "parts", job.parts);
  job.stock.forEach((stock, index) => {
    checkStock(report, `stock[${index}]`, stock);
  });
  checkUnique(report, "stock", job.stock);
  report.atLeast("clearance", job.clearance, 0);
  report.atLeast("edgeMargin", job.edgeMargin, 0);
  report.above("chordError", job.chordError, 0);
  if (!Number.isSafeInteger(job.seed)) {
    report.add("seed", `is ${job.seed}`, "give a whole number");
  }
  checkEffort(report, job.effort);
  return report.faults;
}

function checkPart(report: Report, path: string, part: NestPart): void {
  checkId(report, path, part.id);
  checkRegion(report, `${path}.region`, part.region);
  report.count(`${path}.demand`, part.demand);
  if (part.rotations !== "any") {
    if (part.rotations.length === 0) {
      report.add(`${path}.rotations`, "is an empty list", 'give at least one angle in degrees, or "any"');
    }
    part.rotations.forEach((angle, index) => {
      report.finite(`${path}.rotations[${index}]`, angle);
    });
  }
  if (part.value !== undefined) report.atLeast(`${path}.value`, part.value, 0);
}

function checkStock(report: Report, path: string, stock: Stock): void {
  checkId(report, path, stock.id);
  if (checkContour(report, `${path}.outline`, stock.outline)) {
    if (signedArea(stock.outline) <= 0) {
      report.add(`${path}.outline`, "runs clockwise", "list its vertices counter-clockwise");
    }
    const low = stock.outline.findIndex((vertex) => vertex.x < 0 || vertex.y < 0);
    const { minX, minY } = bounds(stock.outline);
    if (low >= 0 || Math.min(minX, minY) < -1e-9) {
      report.add(
        low >= 0 ? `${path}.outline[${low}]` : `${path}.outline`,
        low >= 0 ? "has a coordinate below 0" : "has an arc that reaches below 0",
        "shift the outline so that all of it is >= 0",
      );
    }
  }
  stock.keepOuts.forEach((keepOut, index) => {
    checkContour(report, `${path}.keepOuts[${index}]`, keepOut);
  });
  if (stock.available !== "unlimited") report.count(`${path}.available`, stock.available);
  report.atLeast(`${path}.cost`, stock.cost, 0);
}

function checkEffort(report: Report, effort: Effort): void {
  if (effort.seconds !== undefined) report.above("effort.seconds", effort.seconds, 0);
  if (effort.steps !== undefined && !(Number.isSafeInteger(effort.steps) && effort.steps > 0)) {
    report.add("effort.steps", `is ${effort.steps}`, "give a whole number of at least 1, or leave it out");
  }
}

function checkId(report: Report, path: string, id: string): void {
  if (id === "") report.add(`${path}.id`, "is empty", "give a name");
}

function checkUnique(report: Report, path: string, things: readonly { readonly id: string }[]): void {
  const first = new Map<string, number>();
  things.forEach((thing, index) => {
    const earlier = first.get(thing.id);
    if (earlier === undefined) first.set(thing.id, index);
    else {
      report.add(
        `${path}[${index}].id`,
        `"${thing.id}" is already the name of ${path}[${earlier}]`,
        "give each its own name, or add up the counts",
      );
    }
  });
}

function checkRegion(report: Report, path: string, region: Region): void {
  const contours = [
    checkContour(report, `${path}.outer`, region.outer),
    ...region.openings.map((opening, index) => checkContour(report, `${path}.openings[${index}]`, opening)),
  ];
  if (!contours.every(Boolean)) return;
  for (const fault of regionFaults(region)) {
    const where = fault.contour === "outline" ? "outer" : `openings[${fault.contour}]`;
    report.add(`${path}.${where}`, ...described(fault));
  }
}

/** True when the contour is sound, so that what builds on it may be checked too. */
function checkContour(report: Report, path: string, contour: Contour): boolean {
  const before = report.faults.length;
  contour.forEach((vertex, index) => {
    report.finite(`${path}[${index}].x`, vertex.x);
    report.finite(`${path}[${index}].y`, vertex.y);
    report.finite(`${path}[${index}].bulge`, vertex.bulge);
  });
  if (report.faults.length > before) return false;
  for (const fault of contourFaults(contour)) {
    report.add(
      path,
      `${fault.what} at ${place(fault.at)}`,
      "give a closed contour that does not cross itself",
    );
  }
  return report.faults.length === before;
}

/** What is wrong, in words, and what would be right. */
function described(fault: Pick<RegionFault, "what" | "at">): [string, string] {
  const [what, hint] = FAULTS[fault.what];
  return [`${what} at ${place(fault.at)}`, hint];
}

const FAULTS: Record<RegionFault["what"], [string, string]> = {
  "not-finite": ["has a number that is not finite", "give finite numbers"],
  "too-few-vertices": ["has too few vertices", "give at least three, or two with an arc"],
  "no-length": ["has a segment without length", "leave out repeated vertices"],
  "meets-itself": ["meets itself", "give a simple closed contour"],
  "doubled-edge": ["runs along itself", "give a simple closed contour"],
  "wrong-way-round": ["runs the wrong way round", "outer contours run counter-clockwise, openings clockwise"],
  "opening-not-inside": ["is not inside the outer contour", "keep openings inside the outline"],
  "openings-overlap": ["overlaps another opening", "unite the two"],
};

function place(at: { readonly x: number; readonly y: number }): string {
  return `(${Number(at.x.toFixed(3))}, ${Number(at.y.toFixed(3))})`;
}

class Report {
  readonly faults: JobFault[] = [];

  add(path: string, what: string, hint: string): void {
    this.faults.push({ path, what, hint });
  }

  finite(path: string, value: number): void {
    if (!Number.isFinite(value)) this.add(path, `is ${value}`, "give a finite number");
  }

  atLeast(path: string, value: number, least: number): void {
    if (!(Number.isFinite(value) && value >= least)) {
      this.add(path, `is ${value}`, `give a finite number of at least ${least}`);
    }
  }

  above(path: string, value: number, limit: number): void {
    if (!(Number.isFinite(value) && value > limit)) {
      this.add(path, `is ${value}`, `give a finite number above ${limit}`);
    }
  }

  count(path: string, value: number): void {
    if (!(Number.isSafeInteger(value) && value >= 0)) {
      this.add(path, `is ${value}`, "give a whole number of at least 0");
    }
  }
}
