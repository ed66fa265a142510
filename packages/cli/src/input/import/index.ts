export * from "./import-plate.js";
export * from "./read-dxf.js";
export * from "./read-file.js";
export * from "./read-svg.js";
