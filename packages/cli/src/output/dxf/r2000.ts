/// <reference path="./dxf-writer-handle.d.ts" />
import DxfDrawing from "dxf-writer";
import Handle from "dxf-writer/src/Handle.js";
import type { Drawing } from "../drawing.js";
import { drawingExtent } from "../drawing-extent.js";
import { dxfColour, type LayerOptions, usedLayers } from "../layer-names.js";
import { type DxfShape, dxfShapes } from "./shapes.js";
import { dxfText, splitTags } from "./tags.js";

/** The layer every DXF file has; dxf-writer writes entities layer by layer, so all wait here in cutting order. */
const QUEUE = "0";

/**
 * DXF of release 2000 (AC1015): closed LWPOLYLINE with bulges, CIRCLE, millimetres.
 *
 * Written through dxf-writer, with what it leaves open closed here: units and extents in the header, handles that
 * start at the same number in every file, values checked and set in plain decimals, order kept across layers.
 */
export function r2000(drawing: Drawing, options: LayerOptions): string {
  Handle.seed = 0;
  const file = new DxfDrawing();
  const extent = drawingExtent(drawing.entities);
  file.setUnits("Millimeters");
  file.header("ACADVER", [[1, "AC1015" as unknown as number]]);
  file.header("MEASUREMENT", [[70, 1]]);
  file.header("EXTMIN", [
    [10, extent.minX],
    [20, extent.minY],
    [30, 0],
  ]);
  file.header("EXTMAX", [
    [10, extent.maxX],
    [20, extent.maxY],
    [30, 0],
  ]);
  for (const { name, layer } of usedLayers(drawing, options)) {
    if (name !== QUEUE) file.addLayer(name, dxfColour(options, layer), "CONTINUOUS");
  }
  for (const shape of dxfShapes(drawing, options)) draw(file, shape);
  return dxfText(splitTags(file.toDxfString()));
}

function draw(file: DxfDrawing, shape: DxfShape): void {
  const layer = file.layers[shape.layer];
  const queue = file.layers[QUEUE];
  if (layer === undefined || queue === undefined)
    throw new RangeError(`DXF layer "${shape.layer}" is not defined`);
  file.setActiveLayer(shape.layer);
  if (shape.kind === "circle") {
    file.drawCircle(shape.center.x, shape.center.y, shape.radius);
  } else {
    file.drawPolyline(
      shape.vertices.map(({ x, y, bulge }) => [x, y, bulge] as unknown as [number, number]),
      shape.closed,
    );
  }
  const drawn = layer.shapes.pop();
  if (drawn !== undefined) queue.shapes.push(drawn);
}
