export type { Given } from "./assumptions.js";
export {
  compareEstimates,
  compareKits,
  type EstimateComparison,
  type GroupChange,
  type KitComparison,
  type KitRow,
  type KitStep,
  type LineChange,
  type LineFigures,
  machineHours,
  type StepLine,
} from "./compare.js";
export {
  COST_GROUPS,
  type CostEstimate,
  type CostGroup,
  type CostLine,
  type CuttingSheet,
  type HardwareUse,
  type LengthUse,
  type MaterialUse,
  type Spares,
} from "./cost-estimate.js";
export { type EstimateInput, estimate } from "./estimate.js";
export { foreseenFindings } from "./foreseen.js";
export { moneyText, raised, withScrap, withSpares } from "./money.js";
export { nestStock, stockListId } from "./nest-stock.js";
export type { NestedMaterial } from "./sheet-cost.js";
export { changeText } from "./step-text.js";
export { kitWeights } from "./weights.js";
