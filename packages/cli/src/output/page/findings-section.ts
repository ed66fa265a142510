import type { Finding, Severity } from "@keelcut/geometry";
import { html, type Markup } from "./html.js";
import { numberText } from "./number-text.js";
import { table } from "./table.js";

/** All findings, errors first, each with its numbers, its reason and its source. */
export function findingsSection(findings: readonly Finding[]): Markup {
  const sorted = ORDER.flatMap((severity) => findings.filter((finding) => finding.severity === severity));
  return html`<section id="findings" aria-labelledby="findings-h"><h2 id="findings-h">Findings</h2>
${
  sorted.length === 0
    ? html`<p>The checks found nothing to report.</p>`
    : table({
        caption: "Errors first, then warnings and notes",
        columns: [
          { heading: "Severity" },
          { heading: "Place" },
          { heading: "Finding" },
          { heading: "Measured", numeric: true },
          { heading: "Limit", numeric: true },
          { heading: "Why" },
        ],
        rows: sorted.map((finding) => [
          severityBadge(finding.severity),
          html`<code>${finding.place}</code>`,
          html`${finding.message} <small class="check-id">${finding.id}</small>`,
          measureText(finding.measured, finding.unit),
          measureText(finding.limit, finding.unit),
          html`${finding.why} <small>${finding.source}</small>`,
        ]),
        stacks: true,
      })
}</section>
`;
}

const ORDER: readonly Severity[] = ["error", "warning", "note"];

/** A word and a shape: colour alone never tells the severity. */
function severityBadge(severity: Severity): Markup {
  const shape = { error: "✕", warning: "▲", note: "●" }[severity];
  return html`<span class="severity ${severity}"><span aria-hidden="true">${shape}</span> ${severity}</span>`;
}

function measureText(value: number | undefined, unit = "mm"): string | undefined {
  if (value === undefined) return undefined;
  return unit === "1" ? numberText(value, 3) : `${numberText(value, 3)}\u00A0${unit}`;
}
