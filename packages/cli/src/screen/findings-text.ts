import type { Finding, Severity } from "@keelcut/geometry";
import { painted, severityPaint } from "./colour.js";
import { counted } from "./number-text.js";
import { type Screen, textWidth } from "./screen.js";
import { wrapped } from "./wrapped.js";

const order: readonly Severity[] = ["error", "warning", "note"];

/** Whether a finding is shown with why it matters and where its figures come from. */
export type WithReason = (finding: Finding) => boolean;

/** Findings for people, errors first. */
export function findingsText(
  findings: readonly Finding[],
  screen: Screen,
  withReason: WithReason = () => true,
): string {
  const sorted = order.flatMap((severity) => findings.filter((finding) => finding.severity === severity));
  return sorted.map((finding) => findingText(finding, screen, withReason(finding))).join("\n");
}

/** `2 errors, 1 warning` or `nothing to report`. */
export function findingsCount(findings: readonly Finding[]): string {
  const parts = order.flatMap((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? [] : [counted(count, severity)];
  });
  return parts.length === 0 ? "no findings" : parts.join(", ");
}

function findingText(finding: Finding, screen: Screen, withReason: boolean): string {
  const width = textWidth(screen);
  const indent = " ".repeat(9);
  const head = finding.severity.padEnd(indent.length);
  const message = wrapped(`${finding.place}: ${finding.message}`, width - indent.length, indent);
  const shown = painted(head, severityPaint[finding.severity], screen.colour) + message;
  if (!withReason) return shown;
  const reason = wrapped(`${finding.why} [${finding.id}; ${finding.source}]`, width - indent.length, indent);
  return `${shown}\n${indent}${painted(reason, "dim", screen.colour)}`;
}
