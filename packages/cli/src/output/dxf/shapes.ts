import { asCircle, type Point, type Vertex } from "@keelcut/geometry";
import type { Drawing } from "../drawing.js";
import { type LayerOptions, layerNamer } from "../layer-names.js";

/** What both DXF flavours can say: a true circle, or a polyline with bulges. */
export type DxfShape =
  | { readonly kind: "circle"; readonly layer: string; readonly center: Point; readonly radius: number }
  | {
      readonly kind: "polyline";
      readonly layer: string;
      readonly vertices: readonly Vertex[];
      readonly closed: boolean;
    };

/** A drawing's entities in order, circles recognised. */
export function dxfShapes(drawing: Drawing, options: LayerOptions): DxfShape[] {
  const name = layerNamer(options);
  return drawing.entities.map((entity) => {
    const layer = name(entity.layer);
    if (entity.kind === "path") return polyline(layer, entity.path.vertices, entity.path.closed);
    const circle = asCircle(entity.contour);
    return circle === undefined
      ? polyline(layer, entity.contour, true)
      : { kind: "circle", layer, center: circle.center, radius: circle.radius };
  });
}

function polyline(layer: string, vertices: readonly Vertex[], closed: boolean): DxfShape {
  if (vertices.length < 2)
    throw new RangeError(`a polyline on layer "${layer}" has ${vertices.length} vertices`);
  return { kind: "polyline", layer, vertices, closed };
}
