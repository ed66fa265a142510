export * from "./drawing.js";
export * from "./dxf/write-dxf.js";
export * from "./file-names.js";
export * from "./layer-names.js";
export * from "./plate-drawing.js";
export * from "./sheet-drawing.js";
export * from "./svg/write-svg.js";
