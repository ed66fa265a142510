import { type Box, offsetContour } from "@keelcut/geometry";
import {
  type Canvas,
  dimensionAcross,
  dimensionUp,
  fitCanvas,
  inMillimetres,
  picture,
  scaleBar,
} from "./canvas.js";
import { html, type Markup } from "./html.js";
import type { LabelPoint } from "./label-point.js";
import { countText, lengthText, numberText, percentText } from "./number-text.js";
import { type NumberedPlate, type NumberedSheet, plateNamed } from "./numbering.js";
import { contourPathData, coordinate, regionPathData } from "./path-data.js";
import { keepOutLabel, plateLabel } from "./sheet-labels.js";
import type { SheetMeasures } from "./sheet-measures.js";

/** Units across the longest sheet of the job. */
const WIDTH = 1000;

/** Shorter sheets are drawn in the same scale, down to this width. */
const LEAST_WIDTH = 480;

/** Below this width a phone, which shows every sheet as wide as its screen, needs smaller letters. */
const NARROW = 720;

const MARGINS = { left: 62, right: 14, top: 44, bottom: 44 };

/** What all drawings of sheets share. */
export interface SheetContext {
  readonly plates: readonly NumberedPlate[];
  readonly labels: ReadonlyMap<string, LabelPoint>;
  readonly edgeMargin: number;
  /** Length of the longest sheet of the job, mm. */
  readonly longest: number;
}

/** One sheet to scale: the stock, its margin and keep-outs, every plate with its number, a scale bar. */
export function sheetDrawing(
  numbered: NumberedSheet,
  measures: SheetMeasures,
  context: SheetContext,
): Markup {
  const { box, stock } = measures;
  const canvas = fitCanvas(box, canvasWidth(box, context.longest), 900, MARGINS);
  const id = `sheet-${numbered.number}-drawing`;
  const { placements } = numbered.sheet;
  const used = context.plates.filter((p) => placements.some((at) => at.part === p.plate.id));

  // Each plate's path is written once; every placement uses it.
  const shapes = used.map(
    ({ number, plate }) =>
      html`<path id="${id}-p${number}" vector-effect="non-scaling-stroke" fill-rule="evenodd" d="${regionPathData(plate.region)}"/>`,
  );
  const placed = placements.map((at) => {
    const { number, plate } = plateNamed(context.plates, at.part);
    const mirror = at.mirrored ? " scale(-1 1)" : "";
    const turn = `translate(${coordinate(at.x)} ${coordinate(-at.y)}) rotate(${coordinate(-at.rotation)})${mirror}`;
    return html`<use class="plate" href="#${id}-p${number}" transform="${turn}"><title>${number} · ${plate.name}</title></use>`;
  });
  const labels = placements.map((at) => {
    const named = plateNamed(context.plates, at.part);
    return plateLabel(named, context.labels.get(at.part) as LabelPoint, at, canvas);
  });
  return picture(
    canvas,
    {
      id,
      kind: canvas.width < NARROW ? "sheet narrow" : "sheet",
      title: `Sheet ${numbered.number}: ${numbered.nest.material} ${numberText(numbered.nest.thickness)} mm, stock ${stock.id}`,
      description: describe(numbered, measures),
      share: canvas.width / WIDTH,
    },
    html`<defs>${shapes}</defs>${inMillimetres(canvas, [...stockShapes(measures, context.edgeMargin), ...placed])}${labels}${stock.keepOuts.map((contour) => keepOutLabel(contour, canvas))}${sizes(box, canvas)}`,
  );
}

function canvasWidth(box: Box, longest: number): number {
  const edges = MARGINS.left + MARGINS.right;
  const inScale = ((box.maxX - box.minX) * (WIDTH - edges)) / longest + edges;
  return Math.min(WIDTH, Math.max(LEAST_WIDTH, Math.ceil(inScale)));
}

function stockShapes({ stock }: SheetMeasures, edgeMargin: number): readonly Markup[] {
  return [
    html`<path class="stock" d="${contourPathData(stock.outline)}"/>`,
    ...(edgeMargin > 0 ? offsetContour(stock.outline, -edgeMargin) : []).map(
      (contour) => html`<path class="margin" d="${contourPathData(contour)}"/>`,
    ),
    ...stock.keepOuts.map(
      (contour) =>
        html`<path class="keep-out" d="${contourPathData(contour)}"><title>keep-out</title></path>`,
    ),
  ];
}

function sizes(box: Box, canvas: Canvas): Markup {
  const [x0, x1, y0, y1] = [canvas.x(box.minX), canvas.x(box.maxX), canvas.y(box.minY), canvas.y(box.maxY)];
  return html`${dimensionAcross(x0, x1, y1, 26, lengthText(box.maxX - box.minX))}${dimensionUp(y0, y1, x0, x0 - 22, lengthText(box.maxY - box.minY))}${scaleBar(canvas, x0, canvas.height - 14)}`;
}

function describe(numbered: NumberedSheet, { box, utilisation }: SheetMeasures): string {
  const size = `${numberText(box.maxX - box.minX)} by ${numberText(box.maxY - box.minY)} mm`;
  const plates = countText(numbered.sheet.placements.length, "plate");
  return `${plates} on a sheet of ${size}, ${percentText(utilisation)} used, cut ${countText(numbered.sheet.times, "time")}.`;
}
