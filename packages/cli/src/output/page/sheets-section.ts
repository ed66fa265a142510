import { html, type Markup } from "./html.js";
import type { PageModel } from "./model.js";
import { countText, lengthText, numberText, percentText } from "./number-text.js";
import { type NumberedPlate, type NumberedSheet, plateNamed } from "./numbering.js";
import { type SheetContext, sheetDrawing } from "./sheet-drawing.js";
import { labelPoints } from "./sheet-labels.js";
import { measureSheet, type SheetMeasures } from "./sheet-measures.js";
import { table } from "./table.js";

/** Every distinct sheet once, drawn to scale, with how often it is cut and what lies on it. */
export function sheetsSection(
  model: PageModel,
  sheets: readonly NumberedSheet[],
  plates: readonly NumberedPlate[],
): Markup {
  const unplaced = model.nests.flatMap((nest) => nest.result.unplaced);
  const measured = sheets.map((numbered) => ({ numbered, measures: measureSheet(numbered, plates) }));
  const context: SheetContext = {
    plates,
    labels: labelPoints(plates),
    edgeMargin: model.frame.parameters.cutting.edgeMargin,
    longest: Math.max(...measured.map(({ measures }) => measures.box.maxX - measures.box.minX)),
  };
  return html`<section id="sheets" aria-labelledby="sheets-h"><h2 id="sheets-h">Sheets to cut</h2>
${sheets.length === 0 && html`<p>No sheet was laid out.</p>`}${
  unplaced.length > 0 &&
  table({
    caption: "Plates that found no place",
    columns: [{ heading: "Plate" }, { heading: "Copies", numeric: true }, { heading: "Why" }],
    rows: unplaced.map((u) => [plateNamed(plates, u.part).plate.name, numberText(u.count), u.message]),
    stacks: true,
  })
}${measured.map(({ numbered, measures }) => sheetArticle(numbered, measures, sheets.length, context))}</section>
`;
}

function sheetArticle(
  numbered: NumberedSheet,
  measures: SheetMeasures,
  total: number,
  context: SheetContext,
): Markup {
  const { nest, sheet, number } = numbered;
  const { box, stock } = measures;
  return html`<article class="sheet-card" id="sheet-${number}" aria-labelledby="sheet-${number}-h">
<header><h3 id="sheet-${number}-h">Sheet ${number} of ${total}: ${nest.material} ${numberText(nest.thickness)}&#160;mm</h3><p class="times">cut <strong>${countText(sheet.times, "time")}</strong></p></header>
<figure>${sheetDrawing(numbered, measures, context)}<figcaption>Seen from the cutting side, x to the right.${captionText(measures, context.edgeMargin)}</figcaption></figure>
<dl class="facts">
<div><dt>Stock</dt><dd>${stock.id}, ${numberText(box.maxX - box.minX)}&#8239;×&#8239;${lengthText(box.maxY - box.minY)}</dd></div>
<div><dt>Plates on it</dt><dd>${numberText(sheet.placements.length)}</dd></div>
<div><dt>Utilisation</dt><dd>${percentText(measures.utilisation)}</dd></div>
<div><dt>Rest</dt><dd>${restText(measures)}</dd></div>
${numbered.file !== undefined && html`<div><dt>File</dt><dd><code>${numbered.file}</code></dd></div>`}</dl>
${contentsTable(numbered, context.plates)}</article>
`;
}

function captionText({ stock }: SheetMeasures, edgeMargin: number): string {
  const margin = edgeMargin > 0 ? ` Dashed: ${lengthText(edgeMargin)} from the edge stay free.` : "";
  return margin + (stock.keepOuts.length > 0 ? " Grey: keep-outs." : "");
}

function contentsTable(numbered: NumberedSheet, plates: readonly NumberedPlate[]): Markup {
  const copies = new Map<number, number>();
  for (const placement of numbered.sheet.placements) {
    const { number } = plateNamed(plates, placement.part);
    copies.set(number, (copies.get(number) ?? 0) + 1);
  }
  const rows = plates.filter((p) => copies.has(p.number));
  return table({
    caption: `Plates on sheet ${numbered.number}`,
    columns: [
      { heading: "No." },
      { heading: "Plate" },
      { heading: "On this sheet", numeric: true },
      { heading: "In all cuts", numeric: true },
    ],
    rows: rows.map(({ number, plate }) => {
      const count = copies.get(number) ?? 0;
      return [
        numberText(number),
        html`<a href="#plate-${number}">${plate.name}</a>`,
        numberText(count),
        numberText(count * numbered.sheet.times),
      ];
    }),
  });
}

function restText(measures: SheetMeasures): string {
  const area = `${numberText((measures.stockArea - measures.plateArea) / 1e6, 3)} m² not in a plate`;
  const free = measures.freeRectangle;
  if (free === undefined) return area;
  const length = numberText(Math.floor(free.maxX - free.minX));
  const width = numberText(Math.floor(free.maxY - free.minY));
  return `${area}; largest free rectangle ${length} × ${width} mm`;
}
