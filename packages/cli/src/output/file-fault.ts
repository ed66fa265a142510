import { circle } from "@keelcut/geometry";
import { type Drawing, layers } from "./drawing.js";
import { type DxfOptions, writeDxf } from "./dxf/write-dxf.js";

/** Why no file can be written with these options: layer names the format forbids, or that clash. */
export function fileFault(options: DxfOptions): string | undefined {
  const entities = layers.map((layer) => ({
    kind: "contour" as const,
    layer,
    contour: circle({ x: 5, y: 5 }, 1),
  }));
  const trial: Drawing = { title: "trial", unit: "mm", entities, note: [], width: 10, height: 10 };
  try {
    writeDxf(trial, options);
    return undefined;
  } catch (error) {
    if (error instanceof RangeError) return error.message;
    throw error;
  }
}
