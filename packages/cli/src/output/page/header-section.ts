import { html, type Markup } from "./html.js";
import type { PageModel } from "./model.js";
import { countText, numberText, percentText } from "./number-text.js";
import { copiesLaid, type NumberedPlate, type NumberedSheet } from "./numbering.js";
import { overallYield } from "./sheet-measures.js";

/** A figure of the head of the page, ready to print. */
export interface KeyFigure {
  readonly name: string;
  readonly value: string;
  readonly more?: string;
}

/** Name, verdict, the state of the files, and the figures a maker and a seller ask for first. */
export function headerSection(
  model: PageModel,
  sheets: readonly NumberedSheet[],
  plates: readonly NumberedPlate[],
  costFigures: readonly KeyFigure[],
): Markup {
  const { frame } = model;
  const { revision } = frame.parameters;
  const figures = [...jobFigures(sheets, plates), ...costFigures];
  return html`<header class="page-head">
<p class="kind">${model.costOnly === true ? "Material" : "Cut files"} and cost for ${countText(model.kits, "kit")}</p>
<h1>${frame.parameters.name}</h1>
<p class="origin">${revision !== "" && html`Revision ${revision} · `}Shop: ${model.shop} · Stock: ${model.stock}</p>
${verdict(model)}
${model.costOnly !== true && compensationNotice(model)}
${
  model.costOnly !== true &&
  model.layerOrder !== undefined &&
  html`<p class="origin">${model.layerOrder}</p>
`
}<dl class="key-figures">${figures.map(
    ({ name, value, more }) =>
      html`<div><dt>${name}</dt><dd>${value}${more !== undefined && html` <small>${more}</small>`}</dd></div>`,
  )}</dl>
</header>
`;
}

function verdict(model: PageModel): Markup {
  const count = (severity: string): number => model.findings.filter((f) => f.severity === severity).length;
  const errors = count("error");
  const warnings = count("warning");
  const unplaced = model.nests.flatMap((nest) => nest.result.unplaced).reduce((sum, u) => sum + u.count, 0);
  const tally = [
    countText(errors, "error"),
    countText(warnings, "warning"),
    countText(count("note"), "note"),
  ].join(", ");
  const missing = unplaced > 0 && html` ${countText(unplaced, "plate")} found no place on a sheet.`;
  if (errors > 0 || unplaced > 0) {
    return html`<p class="verdict bad"><span class="sign" aria-hidden="true">✕</span><span><strong>Do not cut.</strong> It does not fit: ${tally}.${missing} <a href="#findings">See the findings</a>.</span></p>`;
  }
  const look = warnings > 0 && html`<a href="#findings">Look at the warnings</a> and `;
  const kind = warnings > 0 ? "look" : "good";
  return html`<p class="verdict ${kind}"><span class="sign" aria-hidden="true">${warnings > 0 ? "▲" : "✓"}</span><span><strong>It fits.</strong> ${tally}. ${look}${html`${warnings > 0 ? "read" : "Read"} the <a href="#cautions">cautions</a> before you cut.`}</span></p>`;
}

/** Said loudly, because compensating twice or not at all spoils every plate. */
function compensationNotice(model: PageModel): Markup {
  const half = `${numberText(model.kerf / 2, 4)}\u00A0mm`;
  const kerf = `${numberText(model.kerf, 4)}\u00A0mm`;
  return model.compensation === "shop"
    ? html`<p class="notice"><strong>Files are at nominal size, NOT compensated.</strong> The shop moves the cut by half the kerf (${half} of ${kerf}): outside of outlines, inside of openings.</p>`
    : html`<p class="notice"><strong>Files are ALREADY compensated by ${half}</strong> (half the kerf of ${kerf}). Cut on the line; do not compensate again. The pictures on this page show nominal sizes.</p>`;
}

function jobFigures(
  sheets: readonly NumberedSheet[],
  plates: readonly NumberedPlate[],
): readonly KeyFigure[] {
  const cut = sheets.reduce((sum, { sheet }) => sum + sheet.times, 0);
  const perKit = plates
    .filter(({ plate }) => plate.made === "cut")
    .reduce((sum, { plate }) => sum + plate.count, 0);
  const laid = plates.reduce((sum, { plate }) => sum + copiesLaid(plate, sheets), 0);
  return [
    { name: "Sheets", value: numberText(cut), more: `${countText(sheets.length, "distinct layout")}` },
    { name: "Yield", value: percentText(overallYield(sheets, plates)), more: "of the sheets is plates" },
    {
      name: "Plates a kit",
      value: numberText(perKit),
      more: `${countText(laid, "plate")} on the sheets`,
    },
  ];
}
