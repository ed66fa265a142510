import type { DepthFields } from "./depth-field.js";
import { buildDepthFields } from "./depth-field-builder.js";
import { gridFor, onGrid } from "./grid.js";
import { noFitRegion } from "./nofit-region.js";
import { extentOf, type Polygon, type Ring } from "./polygon.js";

/**
 * Depth fields for all pairs of shapes (kinds in one of their turns; copies share them).
 *
 * Shapes are held by the centres of their boxes. Then two symmetries halve the work twice: the region of (B, A) is that
 * of (A, B) seen from the other side, p -> -p; and so is the region of the two shapes both turned by 180 degrees.
 *
 * Cost: S^2 / 2 regions for S shapes, S^2 / 4 when all come with their half turn.
 */
export interface PairTable {
  readonly shapes: number;
  /**
   * Entry fixed * shapes + moving: k + 1 when field k answers for the moving shape's position relative to the fixed
   * one, -(k + 1) when it answers for that position's reflection -p, 0 when the two never meet.
   */
  readonly entry: Int32Array;
  readonly fields: DepthFields;
}

export interface PairShape {
  /** With the centre of its box at the origin. */
  readonly polygon: Polygon;
  /** The shape that is this one turned by 180 degrees (perhaps itself), when there is one. */
  readonly halfTurn: number | undefined;
  /** Fixed shapes never meet each other. */
  readonly fixed: boolean;
}

export function buildPairTable(shapes: readonly PairShape[]): PairTable {
  const n = shapes.length;
  if (n === 0) return { shapes: 0, entry: new Int32Array(0), fields: buildDepthFields([]) };
  const extents = shapes.map((shape) => extentOf(shape.polygon.outer));
  const grid = gridFor(Math.max(...extents.map((e) => Math.max(e.maxX - e.minX, e.maxY - e.minY))));
  const gridded = shapes.map((shape) => onGrid(shape.polygon, grid));
  const entry = new Int32Array(n * n);
  const regions: Ring[][] = [];
  for (let s = 0; s < n; s++) {
    for (let t = s; t < n; t++) {
      if (entry[s * n + t] !== 0 || (shapes[s].fixed && shapes[t].fixed)) continue;
      const rings = noFitRegion(gridded[s], gridded[t], grid.hair);
      if (rings.length === 0) continue;
      const k = regions.push(rings.map((ring) => ring.map((value) => value / grid.scale)));
      entry[s * n + t] = k;
      if (t !== s) entry[t * n + s] = -k;
      const sHalf = shapes[s].halfTurn;
      const tHalf = shapes[t].halfTurn;
      if (sHalf === undefined || tHalf === undefined) continue;
      if (entry[sHalf * n + tHalf] === 0) entry[sHalf * n + tHalf] = -k;
      if (entry[tHalf * n + sHalf] === 0) entry[tHalf * n + sHalf] = k;
    }
  }
  return { shapes: n, entry, fields: buildDepthFields(regions) };
}
