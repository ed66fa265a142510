export { packStrip, type StripControl } from "./pack-strip.js";
export type { Strip, StripItem, StripPlacement, StripResult } from "./strip.js";
