export { chooseCautions } from "./cautions.js";
export type { Caution, PageModel, PageNest } from "./model.js";
export { renderPage } from "./page.js";
