import { type Box, bounds, type Contour, placePoint, rectangle } from "@keelcut/geometry";
import { dimensionAcross, dimensionUp, fitCanvas, inMillimetres, picture, scaleBar } from "./canvas.js";
import { html, type Markup } from "./html.js";
import { type LabelPoint, labelPoint } from "./label-point.js";
import { countText, lengthText, numberText, percentText } from "./number-text.js";
import { type NumberedPlate, type NumberedSheet, plateNamed } from "./numbering.js";
import { contourPathData, coordinate, regionPathData } from "./path-data.js";
import type { SheetMeasures } from "./sheet-measures.js";

const WIDTH = 1000;
const MARGINS = { left: 62, right: 14, top: 44, bottom: 44 };

/** One sheet to scale: the stock, its margin and keep-outs, every plate with its number, a scale bar. */
export function sheetDrawing(
  numbered: NumberedSheet,
  measures: SheetMeasures,
  plates: readonly NumberedPlate[],
  edgeMargin: number,
): Markup {
  const { box, stock } = measures;
  const canvas = fitCanvas(box, WIDTH, 900, MARGINS);
  const id = `sheet-${numbered.number}-drawing`;
  const used = plates.filter((p) => numbered.sheet.placements.some((at) => at.part === p.plate.id));

  const shapes = used.map(
    (p) =>
      html`<path id="${id}-p${p.number}" vector-effect="non-scaling-stroke" fill-rule="evenodd" d="${regionPathData(p.plate.region)}"/>`,
  );
  const margin = marginContours(box, measures.isRectangle, edgeMargin);
  const placed = numbered.sheet.placements.map((at) => {
    const { number, plate } = plateNamed(plates, at.part);
    const mirror = at.mirrored ? " scale(-1 1)" : "";
    const turn = `translate(${coordinate(at.x)} ${coordinate(-at.y)}) rotate(${coordinate(-at.rotation)})${mirror}`;
    return html`<use class="plate tint-${number % 6}" href="#${id}-p${number}" transform="${turn}"><title>${number} · ${plate.name}</title></use>`;
  });

  const labels = labelPoints(used);
  const names = numbered.sheet.placements.map((at) => {
    const { number, plate } = plateNamed(plates, at.part);
    const inner = labels.get(plate.id) as LabelPoint;
    const point = placePoint(inner, at);
    return plateLabel(canvas.x(point.x), canvas.y(point.y), inner.radius * canvas.scale, number, plate.name);
  });

  const x0 = canvas.x(box.minX);
  const x1 = canvas.x(box.maxX);
  const y0 = canvas.y(box.minY);
  const y1 = canvas.y(box.maxY);
  return picture(
    canvas,
    {
      id,
      kind: "sheet",
      title: `Sheet ${numbered.number}: ${numbered.nest.material} ${numberText(numbered.nest.thickness)} mm, stock ${stock.id}`,
      description: describe(numbered, measures, box),
    },
    html`<defs>${shapes}</defs>${inMillimetres(canvas, [
      html`<path class="stock" d="${contourPathData(stock.outline)}"/>`,
      ...margin.map((contour) => html`<path class="margin" d="${contourPathData(contour)}"/>`),
      ...stock.keepOuts.map(
        (contour) =>
          html`<path class="keep-out" d="${contourPathData(contour)}"><title>keep-out</title></path>`,
      ),
      ...placed,
    ])}${names}${stock.keepOuts.map((contour) => keepOutLabel(bounds(contour), canvas))}${dimensionAcross(x0, x1, y1, 26, lengthText(box.maxX - box.minX))}${dimensionUp(y0, y1, x0, 40, lengthText(box.maxY - box.minY))}${scaleBar(canvas, x0, canvas.height - 14)}`,
  );
}

/** The line no plate may cross; drawn on rectangular stock. */
function marginContours(box: Box, isRectangle: boolean, margin: number): readonly Contour[] {
  const length = box.maxX - box.minX - 2 * margin;
  const width = box.maxY - box.minY - 2 * margin;
  if (!isRectangle || margin <= 0 || length <= 0 || width <= 0) return [];
  return [rectangle(box.minX + margin, box.minY + margin, length, width)];
}

function labelPoints(used: readonly NumberedPlate[]): ReadonlyMap<string, LabelPoint> {
  return new Map(used.map(({ plate }) => [plate.id, labelPoint(plate.region)]));
}

/** The number, as large as the plate has room for, and under it the name where it fits inside. */
function plateLabel(x: number, y: number, radius: number, number: number, name: string): Markup {
  const size = radius >= 20 ? "large" : radius >= 9 ? "medium" : "small";
  const nameFits = radius >= 24 && name.length * 7.6 < radius * 2;
  const cy = nameFits ? y - 4 : y;
  return html`<text class="number ${size}" x="${coordinate(x)}" y="${coordinate(cy)}" dy="0.36em" text-anchor="middle">${number}</text>${
    nameFits &&
    html`<text class="name" x="${coordinate(x)}" y="${coordinate(y + 22)}" text-anchor="middle">${name}</text>`
  }`;
}

function keepOutLabel(box: Box, canvas: { x: (mm: number) => number; y: (mm: number) => number }): Markup {
  const x = canvas.x((box.minX + box.maxX) / 2);
  const y = canvas.y((box.minY + box.maxY) / 2);
  return html`<text class="keep-out-label" x="${coordinate(x)}" y="${coordinate(y)}" dy="0.36em" text-anchor="middle">keep-out</text>`;
}

function describe(numbered: NumberedSheet, measures: SheetMeasures, box: Box): string {
  const size = `${numberText(box.maxX - box.minX)} by ${numberText(box.maxY - box.minY)} mm`;
  const plates = countText(numbered.sheet.placements.length, "plate");
  return `${plates} on a sheet of ${size}, ${percentText(measures.utilisation)} used, cut ${countText(numbered.sheet.times, "time")}.`;
}
