export type { Polygon, Ring, Turn } from "../nofit/polygon.js";
export {
  type CompiledSheet,
  compileSheet,
  type FilledSheet,
  fillSheet,
  type SheetItem,
  type SheetProblem,
} from "./fill-sheet.js";
