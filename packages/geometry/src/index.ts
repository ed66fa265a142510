export type * from "./checks/finding.js";
export type * from "./contour/contour.js";
export type * from "./contour/placement.js";
export type * from "./frame/frame.js";
export type * from "./frame/parameters.js";
export * from "./plates/plate.js";
