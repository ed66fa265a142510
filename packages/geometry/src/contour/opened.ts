import { unite } from "./boolean.js";
import type { Region } from "./contour.js";
import { offsetRegion } from "./offset.js";

/**
 * What a disc covers that is moved about within a region without leaving it: every corner it cannot enter becomes an arc of
 * its radius, narrows it cannot pass vanish. The region is shrunk by the radius (mm) and grown back; parts that a narrow
 * separates may meet again in it, so they are united.
 */
export function opened(region: Region, radius: number): readonly Region[] {
  return unite(offsetRegion(region, -radius).flatMap((core) => offsetRegion(core, radius)));
}
