export { frameText as frame } from "../../packages/cli/src/commands/starter/frame-text.js";
export { shopText as shop } from "../../packages/cli/src/commands/starter/shop-text.js";
export { stockText as stock } from "../../packages/cli/src/commands/starter/stock-text.js";
