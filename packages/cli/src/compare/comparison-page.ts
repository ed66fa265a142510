import { createHash } from "node:crypto";
import { html, type Markup, trusted } from "../output/page/html.js";
import { countText, numberText } from "../output/page/number-text.js";
import { STYLESHEET } from "../output/page/stylesheet.js";
import { type Cell, type Column, table } from "../output/page/table.js";
import { type Comparison, ENDED_EARLY } from "./comparison.js";
import { costText, materialTitles, sheetsText } from "./comparison-text.js";
import type { Variant } from "./variant.js";

/** First words of every page this makes, by which it is known again. */
export const pageMark = "<!DOCTYPE html>\n<!-- keelcut compare -->";

/** The comparison as one HTML file that needs nothing beside itself and holds no script. The same comparison gives the same bytes. */
export function comparisonPage(comparison: Comparison): string {
  const { frame, varied, variants } = comparison;
  const fitting = variants.filter(({ fits }) => fits);
  const hash = createHash("sha256").update(STYLESHEET, "utf8").digest("base64");
  const verdict = fitting.length === variants.length ? "good" : fitting.length === 0 ? "bad" : "look";
  const page = html`
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'sha256-${trusted(hash)}'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${frame}: compared</title>
<style>${trusted(STYLESHEET)}</style>
</head>
<body>
<header class="page-head"><p class="kind">The same frame with different values</p><h1>${frame}</h1>
<p class="origin">Varied: ${varied.map(({ path, values }) => `${path} (${values.length})`).join(", ")}</p>
<p class="verdict ${verdict}"><span><strong>${fitting.length} of ${countText(variants.length, "variant")} fit.</strong></span></p>
</header>
<main id="content"><section id="variants" aria-labelledby="variants-h"><h2 id="variants-h">Variants</h2>
${variantTable(comparison)}</section>
<section id="basis" aria-labelledby="basis-h"><h2 id="basis-h">What the figures are</h2>
${comparison.basis.map((line) => html`<p>${line}</p>`)}${comparison.stoppedEarly && html`<p>${ENDED_EARLY}</p>`}</section>
</main>
<footer><p>For ${countText(comparison.kits, "kit")}. Lengths in millimetres.</p></footer>
</body>
</html>
`.markup;
  return pageMark + page;
}

function variantTable({ varied, variants }: Comparison): Markup {
  const titles = materialTitles(variants);
  const priced = variants.find(({ figures }) => figures?.cost)?.figures?.cost;
  const most = {
    mass: Math.max(0, ...variants.map(({ figures }) => figures?.mass ?? 0)),
    cost: Math.max(0, ...variants.map(({ figures }) => figures?.cost?.perKit ?? 0)),
  };
  const columns: Column[] = [
    ...varied.map(({ path }) => ({ heading: path, numeric: true })),
    { heading: "Fits, or the first reason why not", wide: true },
    { heading: "Plates", numeric: true },
    { heading: "Mass a kit, kg", numeric: true },
    ...titles.map((title) => ({ heading: `${title} mm, sheets`, numeric: true })),
    ...(priced === undefined ? [] : [{ heading: `${priced.currency} a kit`, numeric: true }]),
  ];
  const rows = variants.map((variant): Cell[] => {
    const { figures } = variant;
    const cost = figures?.cost;
    return [
      ...variant.values,
      fitCell(variant),
      figures?.plates,
      figures && barCell(numberText(figures.mass / 1000, 2), figures.mass / most.mass),
      ...titles.map((title) => figures && sheetsText(figures, title)),
      ...(priced === undefined ? [] : [cost && barCell(costText(cost), cost.perKit / most.cost)]),
    ];
  });
  return table({ caption: "One row for each combination of values", columns, rows, stacks: true });
}

function fitCell({ fits, figures, reason }: Variant): Markup {
  if (!fits) {
    return html`<span class="severity error">no</span> <strong>${reason?.place}</strong>: ${reason?.message}`;
  }
  const warnings = figures?.warnings ?? 0;
  return warnings === 0
    ? html`yes`
    : html`yes, <span class="severity warning">${countText(warnings, "warning")}</span>`;
}

/** The figure over a bar as long as its share of the largest. */
function barCell(text: string, share: number): Markup {
  const length = Math.round(60 * (Number.isFinite(share) ? share : 0));
  return html`${text}<br><svg class="bar" width="60" height="5" aria-hidden="true"><rect class="cost-sheet" width="${length}" height="5"/></svg>`;
}
