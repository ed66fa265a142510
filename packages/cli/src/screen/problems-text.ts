import { type Problem, problemLine } from "../input/input-error.js";
import { counted } from "./number-text.js";
import { visibleText } from "./visible-text.js";

/** More at once help nobody: after the first ones are mended the rest often go away. */
const mostShown = 8;

/** Problems one a line, the first eight. */
export function problemsText(problems: readonly Problem[]): string {
  const lines = problems.slice(0, mostShown).map((problem) => visibleText(problemLine(problem)));
  const more = problems.length - lines.length;
  return [...lines, ...(more > 0 ? [`and ${counted(more, "more problem")}`] : [])].join("\n");
}
