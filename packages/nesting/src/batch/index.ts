export { withSurplus } from "./assemble.js";
export type * from "./batch-job.js";
export { type ServingSheets, servingSheets } from "./known-layouts.js";
export { DEFAULT_BATCH_STEPS, planBatch, planBatches } from "./plan.js";
export type * from "./solver.js";
