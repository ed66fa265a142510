import { type Box, bounds, type Contour, type Placement, placePoint } from "@keelcut/geometry";
import type { Canvas } from "./canvas.js";
import { html, type Markup } from "./html.js";
import { type LabelPoint, labelPoint } from "./label-point.js";
import type { NumberedPlate } from "./numbering.js";
import { coordinate } from "./path-data.js";

/** Mean advance of a letter of the names, canvas units. */
const NAME_ADVANCE = 7.8;

/** How far a name's base line stands below its label point, canvas units. */
const NAME_DROP = 22;

/** Where the label of each plate goes, in the plate's own coordinates: once per page, however often it is laid. */
export function labelPoints(plates: readonly NumberedPlate[]): ReadonlyMap<string, LabelPoint> {
  return new Map(
    plates
      .filter(({ plate }) => plate.made === "cut")
      .map(({ plate }) => [plate.id, labelPoint(plate.region)]),
  );
}

/** The number, as large as the plate has room for, and under it the name where it fits inside the material. */
export function plateLabel(
  { number, plate }: NumberedPlate,
  inner: LabelPoint,
  placement: Placement,
  canvas: Canvas,
): Markup {
  const point = placePoint(inner, placement);
  const x = coordinate(canvas.x(point.x));
  const y = canvas.y(point.y);
  const radius = inner.radius * canvas.scale;
  const size = radius >= 20 ? "large" : radius >= 9 ? "medium" : "small";
  const nameRoom = Math.sqrt(Math.max(0, radius ** 2 - (NAME_DROP + 2) ** 2));
  const nameFits = (plate.name.length * NAME_ADVANCE) / 2 <= nameRoom;
  const middle = coordinate(nameFits ? y - 4 : y);
  const name =
    nameFits &&
    html`<text class="name" x="${x}" y="${coordinate(y + NAME_DROP)}" text-anchor="middle">${plate.name}</text>`;
  return html`<text class="number ${size}" x="${x}" y="${middle}" dy="0.36em" text-anchor="middle">${number}</text>${name}`;
}

/** The word on a keep-out that has room for it; the hatch and the caption tell the others. */
export function keepOutLabel(contour: Contour, canvas: Canvas): Markup | false {
  const box: Box = bounds(contour);
  if ((box.maxX - box.minX) * canvas.scale < 80) return false;
  const x = coordinate(canvas.x((box.minX + box.maxX) / 2));
  const y = coordinate(canvas.y((box.minY + box.maxY) / 2));
  return html`<text class="keep-out-label" x="${x}" y="${y}" dy="0.36em" text-anchor="middle">keep-out</text>`;
}
