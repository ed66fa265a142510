import { type FeatureKind, regionArea, regionBounds } from "@keelcut/geometry";
import { featureGroups } from "../feature-groups.js";
import { html, type Markup } from "./html.js";
import { countText, lengthText, numberText } from "./number-text.js";
import { copiesLaid, type NumberedPlate, type NumberedSheet } from "./numbering.js";
import { plateDrawing } from "./plate-drawing.js";
import { table } from "./table.js";

/** Every plate once, to scale, with its size, count and why each feature is there. */
export function platesSection(
  plates: readonly NumberedPlate[],
  sheets: readonly NumberedSheet[],
  kits: number,
): Markup {
  const kinds = new Set(plates.flatMap(({ plate }) => featureGroups(plate).map((group) => group.kind)));
  const shown = KINDS.filter(([kind]) => kinds.has(kind) && kind !== "outline");
  return html`<section id="plates" aria-labelledby="plates-h"><h2 id="plates-h">Plates</h2>
${plates.length === 0 && html`<p>The frame has no plate.</p>`}${
  shown.length > 0 &&
  html`<ul class="legend" aria-label="Colours of the openings">${shown.map(([kind, words]) => html`<li><span class="swatch is-${kind}"></span>${words}</li>`)}</ul>`
}<div class="plate-cards">${plates.map((plate) => plateArticle(plate, sheets, kits))}</div></section>
`;
}

const KINDS: readonly (readonly [FeatureKind, string])[] = [
  ["outline", "outline"],
  ["screw-hole", "screw hole"],
  ["rod-hole", "rod hole"],
  ["tab-slot", "slot for a tab"],
  ["tie-slot", "slot for a cable tie"],
  ["window", "window"],
  ["relief", "relief"],
  ["hole", "hole"],
  ["slot", "slot"],
];

function plateArticle(numbered: NumberedPlate, sheets: readonly NumberedSheet[], kits: number): Markup {
  const { number, plate } = numbered;
  const groups = featureGroups(plate);
  const box = regionBounds(plate.region);
  const isCut = plate.made === "cut";
  const how = isCut ? countText(plate.count, "piece") : `${countText(plate.count, "print")} at 1:1`;
  return html`<article class="plate-card" id="plate-${number}" aria-labelledby="plate-${number}-h">
<header><h3 id="plate-${number}-h"><span class="badge">${number}</span> ${plate.name}</h3><p class="times"><strong>${how}</strong> a kit</p></header>
<figure>${plateDrawing(numbered, groups)}</figure>
<dl class="facts">
<div><dt>Material</dt><dd>${plate.sheet.material}${isCut && ` ${lengthText(plate.sheet.thickness)}`}</dd></div>
<div><dt>Outline</dt><dd>${numberText(box.maxX - box.minX)} × ${lengthText(box.maxY - box.minY)}</dd></div>
<div><dt>Net area</dt><dd>${numberText(regionArea(plate.region) / 100, 1)}&#160;cm²</dd></div>
<div><dt>For ${countText(kits, "kit")}</dt><dd>${numberText(plate.count * kits)}</dd></div>
${isCut && html`<div><dt>On the sheets</dt><dd>${numberText(copiesLaid(plate, sheets))}</dd></div>`}
<div><dt>Turning</dt><dd>${turningText(numbered)}</dd></div>
</dl>
${table({
  caption: `Features of plate ${number}`,
  columns: [{ heading: "Mark" }, { heading: "Feature, mm" }, { heading: "Why" }],
  rows: groups.map((group) => [
    html`<span class="swatch is-${group.kind}"></span>${group.letter}`,
    html`${group.contours.length > 1 && `${numberText(group.contours.length)} × `}${group.name} <small class="extent">${group.size}</small>`,
    group.why,
  ]),
})}</article>
`;
}

function turningText({ plate }: NumberedPlate): string {
  if (plate.made === "printed") return "not on a sheet";
  const angles =
    plate.rotations === "any" ? "any angle" : plate.rotations.map((a) => `${numberText(a)}°`).join(", ");
  return plate.mirrorable ? `${angles}; either face up` : `${angles}; this face up`;
}
