import type { Drawing } from "../drawing.js";
import { drawingExtent } from "../drawing-extent.js";
import { dxfColour, type LayerOptions, usedLayers } from "../layer-names.js";
import { type DxfShape, dxfShapes } from "./shapes.js";
import { dxfText, numberTag, type Tag, textTag } from "./tags.js";

/**
 * DXF of release 12 (AC1009): POLYLINE with VERTEX and bulges, closed by its flag, CIRCLE, millimetres.
 *
 * An own writer, because the libraries at hand cannot do this job: dxf-writer knows no R12, and makerjs takes
 * contours apart and chains the pieces again by a tolerance, and writes all polylines before all circles, which
 * breaks the cutting order.
 */
export function r12(drawing: Drawing, options: LayerOptions): string {
  return dxfText([
    ...section("HEADER", header(drawing)),
    ...section("TABLES", [...lineTypes(), ...layerTable(drawing, options)]),
    ...section("ENTITIES", dxfShapes(drawing, options).flatMap(entity)),
    textTag(0, "EOF"),
  ]);
}

function section(name: string, tags: readonly Tag[]): Tag[] {
  return [textTag(0, "SECTION"), textTag(2, name), ...tags, textTag(0, "ENDSEC")];
}

/** $INSUNITS and $MEASUREMENT came after release 12; readers look for them all the same. */
function header(drawing: Drawing): Tag[] {
  const extent = drawingExtent(drawing.entities);
  return [
    textTag(9, "$ACADVER"),
    textTag(1, "AC1009"),
    textTag(9, "$INSUNITS"),
    numberTag(70, 4),
    textTag(9, "$MEASUREMENT"),
    numberTag(70, 1),
    textTag(9, "$EXTMIN"),
    ...point(extent.minX, extent.minY),
    textTag(9, "$EXTMAX"),
    ...point(extent.maxX, extent.maxY),
  ];
}

function lineTypes(): Tag[] {
  return table("LTYPE", [
    [
      textTag(0, "LTYPE"),
      textTag(2, "CONTINUOUS"),
      numberTag(70, 0),
      textTag(3, "Solid line"),
      numberTag(72, 65),
      numberTag(73, 0),
      numberTag(40, 0),
    ],
  ]);
}

function layerTable(drawing: Drawing, options: LayerOptions): Tag[] {
  const names = usedLayers(drawing, options);
  const rows = names.some(({ name }) => name === "0") ? [] : [layerRow("0", 7)];
  return table("LAYER", [
    ...rows,
    ...names.map(({ name, layer }) => layerRow(name, dxfColour(options, layer))),
  ]);
}

function layerRow(name: string, colour: number): Tag[] {
  return [
    textTag(0, "LAYER"),
    textTag(2, name),
    numberTag(70, 0),
    numberTag(62, colour),
    textTag(6, "CONTINUOUS"),
  ];
}

function table(name: string, rows: readonly Tag[][]): Tag[] {
  return [
    textTag(0, "TABLE"),
    textTag(2, name),
    numberTag(70, rows.length),
    ...rows.flat(),
    textTag(0, "ENDTAB"),
  ];
}

function entity(shape: DxfShape): Tag[] {
  const layer = textTag(8, shape.layer);
  if (shape.kind === "circle") {
    const { center, radius } = shape;
    return [textTag(0, "CIRCLE"), layer, ...point(center.x, center.y), numberTag(40, radius)];
  }
  const vertices = shape.vertices.flatMap((vertex) => [
    textTag(0, "VERTEX"),
    layer,
    ...point(vertex.x, vertex.y),
    ...(vertex.bulge === 0 ? [] : [numberTag(42, vertex.bulge)]),
  ]);
  return [
    textTag(0, "POLYLINE"),
    layer,
    numberTag(66, 1),
    ...point(0, 0),
    numberTag(70, shape.closed ? 1 : 0),
    ...vertices,
    textTag(0, "SEQEND"),
    layer,
  ];
}

function point(x: number, y: number): Tag[] {
  return [numberTag(10, x), numberTag(20, y), numberTag(30, 0)];
}
