export type * from "./batch-job.js";
export { DEFAULT_BATCH_STEPS, planBatch, planBatches } from "./plan.js";
export type * from "./solver.js";
