export type * from "./job.js";
