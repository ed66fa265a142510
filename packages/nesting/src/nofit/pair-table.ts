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
  const pairs = leadingPairs(shapes);
  const isLate = stopwatch(shapes, pairs, seconds);
  for (const [done, [s, t]] of pairs.entries()) {
    const rings = noFitRegion(gridded[s], gridded[t], grid.hair);
    if (rings.length > 0) {
      const region = rings.map((ring) => ring.map((value) => value / grid.scale));
      enter(table, shapes, s, t, regions.push(region));
      const turned = turnedPair(shapes, s, t);
      if (turned !== undefined && table.entry[turned[0] * n + turned[1]] === 0) {
        enter(table, shapes, ...turned, regions.push(region.map(turnedByQuarter)));
      }
    }
    if (isLate(done)) return undefined;
  }
  return { ...table, fields: buildDepthFields(regions) };
}

/** Shape t around shape s. */
type Pair = readonly [s: number, t: number];

/** The pairs whose regions are to be built: the others are the same, turned or seen from the other side. */
function leadingPairs(shapes: readonly PairShape[]): Pair[] {
  const n = shapes.length;
  const known = { shapes: n, entry: new Int32Array(n * n) };
  const pairs: Pair[] = [];
  for (let s = 0; s < n; s++) {
    for (let t = s; t < n; t++) {
      if (known.entry[s * n + t] !== 0 || (shapes[s].fixed && shapes[t].fixed)) continue;
      pairs.push([s, t]);
      enter(known, shapes, s, t, 1);
      const turned = turnedPair(shapes, s, t);
      if (turned !== undefined) enter(known, shapes, ...turned, 1);
    }
  }
  return pairs;
}

/** Both shapes turned by 90 degrees, where those are among the shapes. */
function turnedPair(shapes: readonly PairShape[], s: number, t: number): Pair | undefined {
  const [sQuarter, tQuarter] = [shapes[s].quarterTurn, shapes[t].quarterTurn];
  return sQuarter === undefined || tQuarter === undefined ? undefined : [sQuarter, tQuarter];
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
 * Tells after each pair whether all would take longer than allowed, judged by those done: a region takes time by the corners
 * of the one shape times those of the other. A table that is finished is never late.
 */
function stopwatch(
  shapes: readonly PairShape[],
  pairs: readonly Pair[],
  seconds: number,
): (pair: number) => boolean {
  if (seconds === Number.POSITIVE_INFINITY) return () => false;
  const began = performance.now();
  const corners = shapes.map(({ polygon: { outer, openings } }) =>
    openings.reduce((sum, ring) => sum + ring.length / 2, outer.length / 2),
  );
  const work = ([s, t]: Pair): number => BESIDES + corners[s] * corners[t];
  const all = pairs.reduce((sum, pair) => sum + work(pair), 0);
  let done = 0;
  return (pair) => {
    done += work(pairs[pair] as Pair);
    if (pair === pairs.length - 1) return false;
    const taken = (performance.now() - began) / 1000;
    return taken > SURE * seconds && (taken * all) / done > seconds;
  };
}

/** What a pair takes whatever its corners, in corners times corners. */
const BESIDES = 100;

/** Part of the seconds allowed after which the pairs done tell enough. */
const SURE = 0.1;
