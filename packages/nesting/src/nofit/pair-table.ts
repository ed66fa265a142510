import type { DepthFields } from "./depth-field.js";
import { buildDepthFields } from "./depth-field-builder.js";
import { gridFor, onGrid } from "./grid.js";
import { noFitRegion } from "./nofit-region.js";
import { extentOf, type Polygon, type Ring } from "./polygon.js";

/** Depth fields for all pairs of shapes (kinds in one of their turns; copies share them). */
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
  /** The shape that is this one turned by 90 degrees (perhaps itself), when there is one. */
  readonly quarterTurn: number | undefined;
  /** The same for 180 degrees. */
  readonly halfTurn: number | undefined;
  /** Fixed shapes never meet each other. */
  readonly fixed: boolean;
}

/** The table of no shapes. */
export function noPairs(): PairTable {
  return { shapes: 0, entry: new Int32Array(0), fields: buildDepthFields([]) };
}

/**
 * Builds the fields of all pairs; undefined when that turns out to take more than so many seconds.
 *
 * Shapes are held by the centres of their boxes. Then the region of (B, A) is that of (A, B) seen from the other side,
 * p -> -p; so is the region of the two shapes both turned by 180 degrees; and the region of both turned by 90 degrees is
 * that of (A, B) turned likewise.
 *
 * Cost: S^2 / 2 regions for S shapes, S^2 / 4 when all come with their half turn, S^2 / 8 when with quarter turns.
 */
export function buildPairTable(
  shapes: readonly PairShape[],
  seconds: number = Number.POSITIVE_INFINITY,
): PairTable | undefined {
  const n = shapes.length;
  if (n === 0) return noPairs();
  const extents = shapes.map((shape) => extentOf(shape.polygon.outer));
  const grid = gridFor(Math.max(...extents.map((e) => Math.max(e.maxX - e.minX, e.maxY - e.minY))));
  const gridded = shapes.map((shape) => onGrid(shape.polygon, grid));
  const table = { shapes: n, entry: new Int32Array(n * n) };
  const regions: Ring[][] = [];
  const isLate = stopwatch(shapes, seconds);
  for (let s = 0; s < n; s++) {
    for (let t = s; t < n; t++) {
      if (table.entry[s * n + t] !== 0 || (shapes[s].fixed && shapes[t].fixed)) continue;
      const rings = noFitRegion(gridded[s], gridded[t], grid.hair);
      if (rings.length === 0) continue;
      const region = rings.map((ring) => ring.map((value) => value / grid.scale));
      enter(table, shapes, s, t, regions.push(region));
      const sQuarter = shapes[s].quarterTurn;
      const tQuarter = shapes[t].quarterTurn;
      if (sQuarter === undefined || tQuarter === undefined) continue;
      if (table.entry[sQuarter * n + tQuarter] !== 0) continue;
      enter(table, shapes, sQuarter, tQuarter, regions.push(region.map(turnedByQuarter)));
    }
    if (isLate(s + 1)) return undefined;
  }
  return { ...table, fields: buildDepthFields(regions) };
}

/** Enters region k for shape t around shape s, and wherever else it serves as it is. */
function enter(
  { entry, shapes: n }: Pick<PairTable, "entry" | "shapes">,
  shapes: readonly PairShape[],
  s: number,
  t: number,
  k: number,
): void {
  entry[s * n + t] = k;
  if (t !== s) entry[t * n + s] = -k;
  const sHalf = shapes[s].halfTurn;
  const tHalf = shapes[t].halfTurn;
  if (sHalf === undefined || tHalf === undefined) return;
  if (entry[sHalf * n + tHalf] === 0) entry[sHalf * n + tHalf] = -k;
  if (entry[tHalf * n + sHalf] === 0) entry[tHalf * n + sHalf] = k;
}

function turnedByQuarter(ring: Ring): Ring {
  const turned = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    turned[i] = -ring[i + 1];
    turned[i + 1] = ring[i];
  }
  return turned;
}

/**
 * Tells after each row of the table whether it would take longer than allowed, judged by the rows done: a row's share is its
 * corners times those of the shapes from it on.
 */
function stopwatch(shapes: readonly PairShape[], seconds: number): (rows: number) => boolean {
  if (seconds === Number.POSITIVE_INFINITY) return () => false;
  const began = performance.now();
  const corners = shapes.map(({ polygon: { outer, openings } }) =>
    openings.reduce((sum, ring) => sum + ring.length, outer.length),
  );
  const all = corners.reduce((sum, count) => sum + count, 0);
  let left = all;
  return (rows) => {
    left -= corners[rows - 1];
    const share = 1 - (left / all) ** 2;
    const taken = (performance.now() - began) / 1000;
    return taken > SURE * seconds && taken / share > seconds;
  };
}

/** Part of the seconds allowed after which the rows done tell enough. */
const SURE = 0.1;
