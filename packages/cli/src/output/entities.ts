import type { Contour, Path, Region } from "@keelcut/geometry";
import type { Stock } from "@keelcut/nesting";
import type { Entity, Layer } from "./drawing.js";

/** The cut lines of one region: openings before the outline, so that the plate is still held while they are cut. */
export function regionEntities(region: Region): Entity[] {
  return [...region.openings.map(openingEntity), outlineEntity(region.outer)];
}

export function openingEntity(contour: Contour): Entity {
  return { kind: "contour", layer: "opening", contour };
}

export function outlineEntity(contour: Contour): Entity {
  return { kind: "contour", layer: "outline", contour };
}

export function strokeEntities(paths: readonly Path[], layer: Layer): Entity[] {
  return paths.map((path) => ({ kind: "path", layer, path }));
}

/** The stock's edge and keep-outs, for reference: never to be cut. */
export function stockEntities(stock: Stock): Entity[] {
  return [stock.outline, ...stock.keepOuts].map((contour) => ({ kind: "contour", layer: "stock", contour }));
}
