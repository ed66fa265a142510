export { chooseCautions, cuttingCautions } from "./cautions.js";
export type { Caution, HoldingBridges, PageModel, PageNest } from "./model.js";
export { renderPage } from "./page.js";
