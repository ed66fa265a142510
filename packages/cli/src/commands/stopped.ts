import type { Finding } from "@keelcut/geometry";
import { exitCodes } from "../exit-codes.js";
import { stableJson } from "../output/stable-json.js";
import { findingsCount, findingsText } from "../screen/findings-text.js";
import type { Progress } from "../screen/progress.js";
import type { Screen } from "../screen/screen.js";

/**
 * Ends a command whose findings forbid to go on: takes the bar away, which would be drawn over what follows, and says
 * what was found, and that nothing was written.
 */
export function stopped(
  command: string,
  findings: readonly Finding[],
  options: { readonly json?: boolean },
  screen: Screen,
  progress: Pick<Progress, "end">,
): number {
  progress.end();
  if (options.json === true) {
    screen.print(stableJson({ format: `keelcut-${command}`, version: 1, ok: false, findings }));
  } else {
    const shown = findings.filter((finding) => finding.severity !== "note");
    screen.print(`${findingsText(shown, screen)}\n\n${findingsCount(findings)}; nothing was written`);
  }
  return exitCodes.findings;
}
