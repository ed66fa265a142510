export * from "./certificate.js";
export * from "./expectations.js";
export * from "./prove.js";
export * from "./record.js";
