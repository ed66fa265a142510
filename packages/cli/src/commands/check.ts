import type { Finding } from "@keelcut/geometry";
import { foreseenFindings } from "../cost/index.js";
import { exitCodes } from "../exit-codes.js";
import { readFrame } from "../input/read-frame.js";
import { derived, hasErrors } from "../job/derived.js";
import { sheetGroups } from "../job/sheet-groups.js";
import { stableJson } from "../output/stable-json.js";
import { findingsCount, findingsText } from "../screen/findings-text.js";
import type { Screen } from "../screen/screen.js";
import { type SettingOptions, settingsOf } from "./options.js";
import { expectRunOf } from "./short-run.js";

export interface CheckOptions extends SettingOptions {
  readonly reasons?: boolean;
}

/**
 * Lists every finding about a frame, and about its stock and shop when it names them; of notes, which report what fits, the reasons
 * only when asked for. Exit code 1 when one is an error.
 */
export async function check(path: string, options: CheckOptions, screen: Screen): Promise<number> {
  expectRunOf("a fraction of a second");
  const input = await readFrame(path, settingsOf(options), screen.cwd);
  const { frame, findings: about } = derived(input);
  const stock =
    input.stock === undefined
      ? []
      : sheetGroups(frame.plates, input, { kits: 1, sparesPercent: 0 }, { seed: 1 }).findings;
  const { shop } = input;
  const foreseen = input.stock === undefined ? [] : foreseenFindings(frame, shop, input.stock);
  const findings = [...about, ...stock, ...foreseen];
  if (options.json === true) {
    const { name } = frame.parameters;
    screen.print(stableJson({ format: "keelcut-findings", version: 1, frame: name, findings }));
  } else {
    const all = options.reasons === true;
    const withReason = (finding: Finding): boolean => all || finding.severity !== "note";
    if (findings.length > 0) screen.print(findingsText(findings, screen, withReason));
    const more = findings.every(withReason) ? "" : "; --reasons says why the notes matter, and their sources";
    screen.print(findingsCount(findings) + more);
  }
  return hasErrors(findings) ? exitCodes.findings : exitCodes.fine;
}
