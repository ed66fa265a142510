export { checkFrame } from "./checks/check-frame.js";
export { type CuttabilityLimits, checkCuttability } from "./checks/cuttability.js";
export type * from "./checks/finding.js";
export * from "./contour/index.js";
export { deriveFrame } from "./frame/derive.js";
export type * from "./frame/frame.js";
export type * from "./frame/parameters.js";
export * from "./plates/plate.js";
export * from "./standards/index.js";
