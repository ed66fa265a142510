import type { Drawing } from "../drawing.js";
import { defaultLayerOptions, type LayerOptions, usedLayers } from "../layer-names.js";
import { r12 } from "./r12.js";
import { r2000 } from "./r2000.js";

export interface DxfOptions extends LayerOptions {
  readonly flavour: "R12" | "R2000";
}

export const defaultDxfOptions: DxfOptions = { ...defaultLayerOptions, flavour: "R2000" };

/** Characters a layer name may hold: DXF reference, "Symbol table" notes, for release 12 and for release 2000. */
const NAME = { R12: /^[A-Za-z0-9$_-]{1,31}$/, R2000: /^[^\p{C}<>/\\":;?*|=,`\x80-\u{10ffff}]{1,255}$/u };

/**
 * The text of a DXF file: the same bytes for the same drawing, every contour closed, arcs as arcs, in cutting order.
 *
 * @throws RangeError when a number is not finite, a layer name cannot be written in this flavour, or operations that
 * must stay apart share a layer.
 */
export function writeDxf(drawing: Drawing, options: DxfOptions = defaultDxfOptions): string {
  for (const { name } of usedLayers(drawing, options)) {
    if (!NAME[options.flavour].test(name) || name.trim() !== name) {
      throw new RangeError(`"${name}" cannot be a layer name in a DXF ${options.flavour} file`);
    }
  }
  return options.flavour === "R12" ? r12(drawing, options) : r2000(drawing, options);
}
