import { type Box, bounds, type Contour, type Mark, type Point, regionBounds } from "@keelcut/geometry";
import { type FeatureGroup, openingKinds } from "../feature-groups.js";
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
import { lengthText, numberText } from "./number-text.js";
import type { NumberedPlate } from "./numbering.js";
import { contourPathData, coordinate, markPathData, regionPathData } from "./path-data.js";

const WIDTH = 700;
const MARGINS = { left: 66, right: 44, top: 54, bottom: 58 };

/** One plate to scale with its overall size, its openings coloured by what they are for and lettered as in the feature list. */
export function plateDrawing(numbered: NumberedPlate, groups: readonly FeatureGroup[]): Markup {
  const { number, plate } = numbered;
  const box = regionBounds(plate.region);
  const canvas = fitCanvas(box, WIDTH, 620, MARGINS);
  const kinds = openingKinds(plate);
  const openings = plate.region.openings.map(
    (contour, i) => html`<path class="opening is-${kinds[i] ?? "hole"}" d="${contourPathData(contour)}"/>`,
  );
  const [x0, x1, y0, y1] = [canvas.x(box.minX), canvas.x(box.maxX), canvas.y(box.minY), canvas.y(box.maxY)];
  return picture(
    canvas,
    {
      id: `plate-${number}-drawing`,
      kind: "plate-picture",
      title: `Plate ${number}: ${plate.name}`,
      description: describe(numbered, box),
    },
    html`${inMillimetres(canvas, [
      html`<path class="plate" d="${regionPathData(plate.region)}"/>`,
      ...openings,
      ...plate.marks.map(markShape),
    ])}${letters(groups, canvas)}${dimensionAcross(x0, x1, y1, 28, lengthText(box.maxX - box.minX))}${dimensionUp(y0, y1, x0, x0 - 26, lengthText(box.maxY - box.minY))}${scaleBar(canvas, MARGINS.left, canvas.height - 14)}`,
  );
}

function markShape(mark: Mark): Markup {
  if (mark.kind === "line") return html`<path class="mark" d="${markPathData(mark.path)}"/>`;
  // Capital letters of common sans-serif faces are about 0.72 em high.
  const em = coordinate(mark.height / 0.72);
  const at = `translate(${coordinate(mark.at.x)} ${coordinate(-mark.at.y)}) rotate(${coordinate(-mark.rotation)})`;
  const anchor = mark.atEnd === true && html` text-anchor="end"`;
  return html`<text class="mark-text" transform="${at}" font-size="${em}"${anchor}>${mark.text}</text>`;
}

/** One letter a group, at the member that keeps farthest from the letters already set. */
function letters(groups: readonly FeatureGroup[], canvas: Canvas): Markup[] {
  const taken: Point[] = [];
  return groups
    .filter((group) => group.kind !== "outline")
    .map((group) => {
      const places = group.contours.map((contour) => letterPlace(contour, canvas));
      const free = (p: Point): number => Math.min(...taken.map((t) => Math.hypot(t.x - p.x, t.y - p.y)), 1e6);
      const place = places.reduce((best, p) => (free(p) > free(best) + 1e-6 ? p : best));
      taken.push(place);
      return html`<text class="letter" x="${coordinate(place.x)}" y="${coordinate(place.y)}" dy="0.36em" text-anchor="middle">${group.letter}</text>`;
    });
}

/** Inside an opening with room for a letter, else above its upper right. */
function letterPlace(contour: Contour, canvas: Canvas): Point {
  const box = bounds(contour);
  const middle = { x: canvas.x((box.minX + box.maxX) / 2), y: canvas.y((box.minY + box.maxY) / 2) };
  const halfWidth = ((box.maxX - box.minX) / 2) * canvas.scale;
  const halfHeight = ((box.maxY - box.minY) / 2) * canvas.scale;
  if (Math.min(halfWidth, halfHeight) >= 13) return middle;
  return { x: middle.x + halfWidth * 0.7 + 10, y: middle.y - halfHeight * 0.7 - 10 };
}

function describe({ plate }: NumberedPlate, box: Box): string {
  const size = `${numberText(box.maxX - box.minX)} by ${numberText(box.maxY - box.minY)} mm`;
  return `Outline ${size}, ${plate.region.openings.length} openings, ${plate.sheet.material} ${numberText(plate.sheet.thickness)} mm.`;
}
