import type { Path } from "@keelcut/geometry";
import type { Stock } from "@keelcut/nesting";
import type { Entity, Layer } from "./drawing.js";
import type { Led } from "./lead-ins.js";

export function strokeEntities(paths: readonly Path[], layer: Layer): Entity[] {
  return paths.map((path) => ({ kind: "path", layer, path }));
}

/** The stock's edge and keep-outs, for reference: never to be cut. */
export function stockEntities(stock: Stock): Entity[] {
  return [stock.outline, ...stock.keepOuts].map((contour) => ({ kind: "contour", layer: "stock", contour }));
}

/** The strokes that lead to cuts, on the mark layer: never to be cut themselves. */
export function leadInEntities(led: readonly Led[]): Entity[] {
  return led.flatMap(({ leadIn }) =>
    leadIn === undefined ? [] : [{ kind: "path", layer: "mark", path: leadIn, leadIn: true }],
  );
}
