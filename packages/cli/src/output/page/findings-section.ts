import type { Finding, Severity } from "@keelcut/geometry";
import { html, type Markup } from "./html.js";
import { numberText } from "./number-text.js";
import { placeNames } from "./place-names.js";
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
        rows: grouped(sorted).map(({ finding, places }) => [
          severityBadge(finding.severity),
          placeNames(places),
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

interface GroupedFinding {
  readonly finding: Finding;
  readonly places: readonly string[];
}

/** The same words and numbers at several places are read once, with all places. */
function grouped(findings: readonly Finding[]): readonly GroupedFinding[] {
  const groups = new Map<string, GroupedFinding>();
  for (const finding of findings) {
    const { place, ...rest } = finding;
    const key = JSON.stringify(Object.entries(rest).sort(([a], [b]) => (a < b ? -1 : 1)));
    groups.set(key, { finding, places: [...(groups.get(key)?.places ?? []), place] });
  }
  return [...groups.values()];
}

/** A word and a shape: colour alone never tells the severity. */
function severityBadge(severity: Severity): Markup {
  const shape = { error: "✕", warning: "▲", note: "●" }[severity];
  return html`<span class="severity ${severity}"><span aria-hidden="true">${shape}</span> ${severity}</span>`;
}

function measureText(value: number | undefined, unit = "mm"): string | undefined {
  if (value === undefined) return undefined;
  return unit === "1" ? numberText(value, 3) : `${numberText(value, 3)}\u00A0${unit}`;
}
