import { type JobFault, NestJobError } from "../job-validation.js";
import type { BatchJob } from "./batch-job.js";

/** Throws a `NestJobError` unless what a batch job adds to a packing job is sound. */
export function assertBatch(job: BatchJob): void {
  const faults: JobFault[] = [];
  const check = (
    path: string,
    value: number | undefined,
    sound: (value: number) => boolean,
    hint: string,
  ): void => {
    if (value === undefined || (Number.isFinite(value) && sound(value))) return;
    faults.push({ path, what: `is ${value}`, hint });
  };
  const notNegative = (value: number): boolean => value >= 0;
  const positiveWhole = (value: number): boolean => Number.isSafeInteger(value) && value >= 1;
  check("surplusPercent", job.surplusPercent, notNegative, "give a percentage of at least 0");
  check("costPerSheet", job.costPerSheet, notNegative, "give a cost of at least 0");
  check("costPerLayout", job.costPerLayout, notNegative, "give a cost of at least 0");
  check("rests.percent", job.rests?.percent, (value) => value >= 0 && value <= 100, "give 0 to 100");
  check("rests.length", job.rests?.length, (value) => value > 0, "give a length above 0");
  check("rests.width", job.rests?.width, (value) => value > 0, "give a width above 0");
  check("maxLayouts", job.maxLayouts, positiveWhole, "give a whole number of at least 1");
  job.parts.forEach((part, index) => {
    check(`parts[${index}].perKit`, part.perKit, positiveWhole, "give a whole number of at least 1");
  });
  job.stock.forEach((stock, index) => {
    if (stock.tiers === undefined) return;
    const path = `stock[${index}].tiers`;
    if (stock.tiers.length === 0) faults.push({ path, what: "is empty", hint: "give one price at least" });
    stock.tiers.forEach((tier, at) => {
      const before = stock.tiers?.[at - 1]?.from ?? 0;
      const rising = (from: number): boolean => positiveWhole(from) && from > before;
      check(`${path}[${at}].from`, tier.from, rising, "give whole numbers that rise");
      check(`${path}[${at}].each`, tier.each, notNegative, "give a price of at least 0");
    });
  });
  if (faults.length > 0) throw new NestJobError(faults);
}
