import { bounds } from "@keelcut/geometry";
import type { LaidOut } from "../job/laid-out.js";
import type { OutputFile } from "./folder.js";
import { html, type Markup, trusted } from "./page/html.js";
import { numberText } from "./page/number-text.js";
import { sheetText } from "./sheet-text.js";

export interface CuttingListFacts {
  readonly name: string;
  readonly revision: string | undefined;
  readonly kits: number;
  readonly groups: readonly LaidOut[];
  /** For each group, the DXF of each of its sheets. */
  readonly sheetFiles: readonly (readonly string[])[];
  /** How contours stand to the cut: what the shop must know before it starts. Sentences. */
  readonly notes: readonly string[];
  /** What the cutting calls for: titles of cautions. */
  readonly cautions: readonly string[];
  /** Names of the plates by id. */
  readonly plateNames: ReadonlyMap<string, string>;
  /** Diameters of the openings of each plate that are drilled and not cut, mm, by the plate's id. */
  readonly drilled: ReadonlyMap<string, readonly number[]>;
}

/**
 * The list that goes to the machine with the files: what to take from the rack, and each file with how often it is cut
 * and what comes off. One sheet of A4 for the twenty-odd layouts of a job; boxes to tick as sheets are done.
 */
export function cuttingList(facts: CuttingListFacts): OutputFile {
  const { name, revision, kits, groups } = facts;
  const title = `${name}${revision === undefined ? "" : `, revision ${revision}`}: cutting list`;
  const content = html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>${trusted(STYLE)}</style>
</head>
<body>
<h1>${title}</h1>
<p>${kits === 1 ? "1 kit" : `${kits} kits`}. All drawings in mm. ${facts.notes.join(" ")}</p>
<p class="beware"><strong>Beware:</strong> ${facts.cautions.join("; ")}.</p>
<h2>Take from the rack</h2>
<table><thead><tr><th>Material</th><th>Stock</th><th>Size, mm</th><th class="n">Sheets</th></tr></thead><tbody>
${groups.flatMap(stockRows)}</tbody></table>
<h2>Cut</h2>
<table><thead><tr><th>File</th><th>Stock</th><th class="n">Times</th><th>Off each sheet</th><th>Done</th></tr></thead><tbody>
${groups.flatMap((group, index) => cutRows(group, facts.sheetFiles[index] ?? [], facts))}</tbody></table>
</body>
</html>
`.markup;
  return { path: "cutting-list.html", content };
}

function stockRows({ material, job, result }: LaidOut): Markup[] {
  return job.stock.flatMap((stock): Markup[] => {
    const cut = result.sheets.filter((sheet) => sheet.stock === stock.id);
    const count = cut.reduce((sum, sheet) => sum + sheet.times, 0);
    if (count === 0) return [];
    const box = bounds(stock.outline);
    const size = `${numberText(box.maxX - box.minX)} × ${numberText(box.maxY - box.minY)}`;
    return [
      html`<tr><td>${sheetText(material)}</td><td>${stock.id}</td><td>${size}</td><td class="n">${count}</td></tr>
`,
    ];
  });
}

function cutRows(
  { result }: LaidOut,
  files: readonly string[],
  { plateNames, drilled }: CuttingListFacts,
): Markup[] {
  return result.sheets.map((sheet, index) => {
    const copies = new Map<string, number>();
    for (const { part } of sheet.placements) copies.set(part, (copies.get(part) ?? 0) + 1);
    const plates = [...copies]
      .map(([part, count]) => `${count} × ${plateNames.get(part) ?? part}`)
      .join("; ");
    const drills = drillText([...copies].map(([part, count]) => [drilled.get(part) ?? [], count]));
    const file = (files[index] ?? "").replace(/^sheets\//, "");
    return html`<tr><td>${file}</td><td>${sheet.stock}</td><td class="n">${sheet.times}</td><td>${plates}${drills !== "" && html`<br>Drill ${drills}`}</td><td class="box">☐</td></tr>
`;
  });
}

/** `12 × 3.4 mm, 4 × 6.6 mm`: how many holes of each diameter, the smallest first. */
function drillText(plates: readonly (readonly [diameters: readonly number[], copies: number])[]): string {
  const counts = new Map<number, number>();
  for (const [diameters, copies] of plates) {
    for (const exact of diameters) {
      const diameter = Math.round(exact * 1000) / 1000;
      counts.set(diameter, (counts.get(diameter) ?? 0) + copies);
    }
  }
  return [...counts]
    .sort(([a], [b]) => a - b)
    .map(([diameter, count]) => `${count} × ${numberText(diameter, 3)} mm`)
    .join(", ");
}

const STYLE = `@page{size:A4;margin:12mm}
body{font:10pt/1.3 sans-serif;margin:0 auto;max-width:190mm;padding:4mm;color:#000;background:#fff}
h1{font-size:14pt;margin:0 0 2mm}h2{font-size:11pt;margin:4mm 0 1mm}p{margin:0}.beware{margin-top:2mm;border-left:1mm solid #000;padding-left:2mm}
table{border-collapse:collapse;width:100%}th,td{border-bottom:.3mm solid #888;padding:.7mm 1.5mm;text-align:left;vertical-align:top}
td:first-child{overflow-wrap:anywhere}.n{text-align:right}.box{font-size:13pt;line-height:1}tr{break-inside:avoid}`;
