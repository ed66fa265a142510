import type { Polygon } from "../../../packages/nesting/src/nofit/polygon.js";
import type { Strip, StripResult } from "../../../packages/nesting/src/strip/strip.js";
import { checkLayout, type LayoutCheck } from "../../benchmarks/layout-check.js";

/** What a second geometry library says of a layout of the strip's own polygons; openings count as material. */
export function checkStrip(strip: Strip, { placements, length }: StripResult): LayoutCheck {
  const items = placements.map((placement) => {
    const polygon = cornersOf((strip.items[placement.item] as Strip["items"][number]).polygon);
    return { ...placement, polygon };
  });
  return checkLayout(items, strip.height, length);
}

/** Corners of the outer ring in pairs. */
export function cornersOf({ outer }: Polygon): [number, number][] {
  return Array.from({ length: outer.length / 2 }, (_, i) => [
    outer[2 * i] as number,
    outer[2 * i + 1] as number,
  ]);
}
