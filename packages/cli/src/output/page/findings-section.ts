import type { Finding, Severity } from "@keelcut/geometry";
import { html, type Markup } from "./html.js";
import { countText, numberText } from "./number-text.js";
import { placeNames } from "./place-names.js";
import { table } from "./table.js";

/** Errors and warnings, errors first: what decides whether to cut. */
export function findingsSection(findings: readonly Finding[]): Markup {
  const grave = ORDER.flatMap((severity) => findings.filter((finding) => finding.severity === severity));
  const notes = findings.length - grave.length;
  const none =
    grave.length === 0 && (notes === 0 ? "The checks found nothing to report." : "No error, no warning.");
  return html`<section id="findings" aria-labelledby="findings-h"><h2 id="findings-h">Findings</h2>
${grave.length > 0 && findingsTable("Errors first, then warnings", grave)}${
  (none || notes > 0) &&
  html`<p>${none}${notes > 0 && html` <a href="#notes">${countText(notes, "note")}</a> further down.`}</p>`
}</section>
`;
}

/** What the checks want known, with nothing to decide; undefined when there is none. */
export function notesSection(findings: readonly Finding[]): Markup | undefined {
  const notes = findings.filter((finding) => finding.severity === "note");
  if (notes.length === 0) return undefined;
  return html`<section id="notes" aria-labelledby="notes-h"><h2 id="notes-h">Notes</h2>
${findingsTable("What the checks want known", notes)}</section>
`;
}

function findingsTable(caption: string, findings: readonly Finding[]): Markup {
  return table({
    caption,
    columns: [
      { heading: "Severity" },
      { heading: "Place" },
      { heading: "Finding" },
      { heading: "Measured", numeric: true },
      { heading: "Why", wide: true },
    ],
    rows: grouped(findings).map(({ finding, places }) => [
      severityBadge(finding.severity),
      placeNames(places),
      html`${finding.message} <small class="check-id">${finding.id}</small>${sizesOf(finding)}`,
      measureText(finding),
      html`${finding.why} <small>${finding.source}</small>`,
    ]),
    stacks: true,
  });
}

const ORDER: readonly Severity[] = ["error", "warning"];

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

/** What the figure is made of, folded away: each size with its deviations and who says so. */
function sizesOf({ contributions, unit = "mm" }: Finding): Markup | undefined {
  if (contributions === undefined) return undefined;
  return html`<details><summary>${countText(contributions.length, "size")}, ${unit}</summary><ul>
${contributions.map(
  ({ name, nominal, plus, minus, source }) =>
    html`<li>${name}: ${numberText(nominal, 3)}${deviationText(plus, minus)} <small>${source}</small></li>
`,
)}</ul></details>`;
}

function deviationText(plus: number, minus: number): string {
  if (plus === 0 && minus === 0) return "";
  const [up, down] = [numberText(plus, 3), numberText(minus, 3)];
  return up === down ? ` \u00B1 ${up}` : ` +${up} \u2212${down}`;
}

function measureText({ measured, limit, unit = "mm" }: Finding): Markup | undefined {
  if (measured === undefined && limit === undefined) return undefined;
  const figure = (value: number): string => numberText(value, 3) + (unit === "1" ? "" : `\u00A0${unit}`);
  return html`${measured !== undefined && figure(measured)}${
    limit !== undefined && html` <small>limit ${figure(limit)}</small>`
  }`;
}
