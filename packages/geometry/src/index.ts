export { type CuttabilityLimits, checkCuttability } from "./checks/cuttability.js";
export type * from "./checks/finding.js";
export * from "./contour/index.js";
export type * from "./frame/frame.js";
export type * from "./frame/parameters.js";
export * from "./plates/plate.js";
export * from "./standards/index.js";
