export * from "./batch/index.js";
export type * from "./job.js";
export { assertJob, type JobFault, jobFaults, NestJobError } from "./job-validation.js";
export { nest } from "./nest.js";
export { type LeastRest, largestRest, placedBoxes } from "./rest.js";
export * from "./search/index.js";
export * from "./strip/index.js";
export { DISTANCE_TOLERANCE, type Violation, type ViolationKind, verify } from "./verify.js";
