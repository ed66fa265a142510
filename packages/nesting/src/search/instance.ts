import { type Silhouette, silhouetteOf } from "../collision/silhouette.js";
import { buildPairTable, noPairs, type PairTable } from "../nofit/pair-table.js";
import {
  extentOf,
  orientedPolygon,
  type Polygon,
  polygonArea,
  samePolygon,
  type Turn,
  turnedPolygon,
} from "../nofit/polygon.js";

/** One kind of item: any number of equal copies. */
export interface PackKind {
  readonly polygon: Polygon;
  readonly demand: number;
  /** The ways it may be turned; at least one. */
  readonly turns: readonly Turn[];
  /** May lie at any further angle; then outlines are compared instead of no-fit regions. */
  readonly anyAngle?: boolean;
}

/** Something that lies where it lies: a plate already placed, a keep-out, the frame around a sheet's outline. */
export interface FixedShape {
  /** In the coordinates of its box. */
  readonly polygon: Polygon;
  readonly box: number;
}

/**
 * A packing problem compiled for the search: numbers only, no objects, so that workers can share it and the inner loop
 * can run over it.
 *
 * Items are copies of kinds; a kind's shapes are its turns that differ in form. Items after the last movable one are
 * fixed. A shape is held by the centre of its box: `halfWidth` and `halfHeight` reach from there, and
 * (`centreX`, `centreY`) is where that centre lies in the turned polygon's own coordinates.
 */
export interface Instance {
  readonly kinds: number;
  readonly firstShape: Int32Array;
  readonly shapeCount: Int32Array;
  /** Area of the material of each kind. */
  readonly area: Float64Array;
  /** Weight of an overlap of two kinds, entry kind * kinds + kind: larger plates count more. */
  readonly scale: Float64Array;
  readonly shapes: number;
  readonly kindOfShape: Int32Array;
  /** Which of its kind's turns a shape is. */
  readonly turnOfShape: Int32Array;
  readonly halfWidth: Float64Array;
  readonly halfHeight: Float64Array;
  readonly centreX: Float64Array;
  readonly centreY: Float64Array;
  readonly items: number;
  readonly movable: number;
  readonly kindOfItem: Int32Array;
  /** For fixed items: where they lie in their box. */
  readonly fixedX: Float64Array;
  readonly fixedY: Float64Array;
  readonly fixedBox: Int32Array;
  /** Mean of (width + height) / 2 over the movable items: the length the search measures steps by. */
  readonly meanSize: number;
  readonly pairs: PairTable;
  /** For each shape, when outlines are compared instead of no-fit regions; else empty. */
  readonly silhouettes: readonly Silhouette[];
  /** 1 for kinds that may lie at any angle (with silhouettes only). */
  readonly anyAngle: Uint8Array;
}

/** Shapes larger than any box are of no use. */
export interface LargestBox {
  readonly width?: number;
  readonly height?: number;
}

/**
 * Compiles kinds and fixed shapes; builds the no-fit region of every pair of shapes, unless a kind may lie at any angle or
 * that would take more than `tableSeconds`: then outlines are compared.
 *
 * RangeError for a polygon that is none, and for a kind that fits the largest box in none of its turns.
 */
export function compileInstance(
  kinds: readonly PackKind[],
  fixed: readonly FixedShape[],
  largest: LargestBox = {},
  tableSeconds: number = Number.POSITIVE_INFINITY,
): Instance {
  const all = [
    ...kinds.map((kind) => ({ polygon: orientedPolygon(kind.polygon), turns: kind.turns })),
    ...fixed.map((shape) => ({ polygon: orientedPolygon(shape.polygon), turns: [upright] })),
  ];
  const listed = all.flatMap((kind, k) => shapesOfKind(kind, k, k < kinds.length ? largest : {}));
  const shapes = listed.map(({ polygon }) => polygon);
  const kindOfShape = listed.map(({ kind }) => kind);
  const firstShape = all.map((_, k) => kindOfShape.indexOf(k));
  firstShape.push(shapes.length);
  const pairs = kinds.some((kind) => kind.anyAngle)
    ? undefined
    : buildPairTable(
        shapes.map((polygon, s) => {
          const [first, end] = [firstShape[kindOfShape[s]], firstShape[kindOfShape[s] + 1]];
          return {
            polygon,
            quarterTurn: turnOf(shapes, s, 90, first, end),
            halfTurn: turnOf(shapes, s, 180, first, end),
            fixed: kindOfShape[s] >= kinds.length,
          };
        }),
        tableSeconds,
      );
  const silhouettes = pairs === undefined ? shapes.map(silhouetteOf) : [];
  const extents = shapes.map((shape, s) => {
    const { maxX, maxY } = extentOf(shape.outer);
    const reach = kinds[kindOfShape[s]]?.anyAngle ? silhouettes[s].reach : 0;
    return { maxX: Math.max(maxX, reach), maxY: Math.max(maxY, reach) };
  });
  const sizes = {
    kinds: all.length,
    firstShape: Int32Array.from(firstShape.slice(0, -1)),
    halfWidth: Float64Array.from(extents, (e) => e.maxX),
    halfHeight: Float64Array.from(extents, (e) => e.maxY),
  };
  const counts = kinds.map((kind) => kind.demand);
  return {
    ...sizes,
    ...copiesOf(sizes, counts, fixed.length),
    shapeCount: Int32Array.from(all, (_, k) => firstShape[k + 1] - firstShape[k]),
    area: Float64Array.from(all, (kind) => polygonArea(kind.polygon)),
    shapes: shapes.length,
    kindOfShape: Int32Array.from(kindOfShape),
    turnOfShape: Int32Array.from(listed, ({ turn }) => turn),
    centreX: Float64Array.from(listed, ({ x }) => x),
    centreY: Float64Array.from(listed, ({ y }) => y),
    fixedX: Float64Array.from(fixed, (_, f) => listed[firstShape[kinds.length + f]].x),
    fixedY: Float64Array.from(fixed, (_, f) => listed[firstShape[kinds.length + f]].y),
    fixedBox: Int32Array.from(fixed, (shape) => shape.box),
    pairs: pairs ?? noPairs(),
    silhouettes,
    anyAngle: Uint8Array.from(all, (_, k) => (kinds[k]?.anyAngle ? 1 : 0)),
  };
}

/** The same kinds in other numbers, without building their regions again; for instances without fixed shapes. */
export function withDemand(instance: Instance, demand: readonly number[]): Instance {
  return { ...instance, ...copiesOf(instance, demand, 0) };
}

/** What depends on the numbers of copies. */
function copiesOf(
  { kinds, firstShape, halfWidth, halfHeight }: Sizes,
  demand: readonly number[],
  fixed: number,
): Pick<Instance, "items" | "movable" | "kindOfItem" | "scale" | "meanSize"> {
  const kindOfItem = demand.flatMap((count, k) => Array<number>(count).fill(k));
  const movable = kindOfItem.length;
  const mean = (size: (shape: number) => number): number =>
    kindOfItem.reduce((sum, k) => sum + size(firstShape[k]), 0) / Math.max(1, movable);
  const geometric = (s: number): number => 2 * Math.sqrt(halfWidth[s] * halfHeight[s]);
  const meanGeometric = mean(geometric);
  const usual = Array.from(firstShape, (s) => Math.min(geometric(s), 4 * meanGeometric));
  return {
    items: movable + fixed,
    movable,
    kindOfItem: Int32Array.from([
      ...kindOfItem,
      ...Array.from({ length: fixed }, (_, f) => demand.length + f),
    ]),
    scale: Float64Array.from({ length: kinds ** 2 }, (_, i) => {
      return Math.sqrt(usual[Math.floor(i / kinds)] * usual[i % kinds]) / meanGeometric;
    }),
    meanSize: mean((s) => halfWidth[s] + halfHeight[s]),
  };
}

type Sizes = Pick<Instance, "kinds" | "firstShape" | "halfWidth" | "halfHeight">;

const upright: Turn = { rotation: 0, mirrored: false };

/** A shape, whose it is, and where its centre was before it was moved to the origin. */
interface ListedShape {
  readonly polygon: Polygon;
  readonly kind: number;
  readonly turn: number;
  readonly x: number;
  readonly y: number;
}

/** The turns of a kind that fit and differ in form. */
function shapesOfKind(
  { polygon, turns }: { readonly polygon: Polygon; readonly turns: readonly Turn[] },
  kind: number,
  largest: LargestBox,
): ListedShape[] {
  const shapes: ListedShape[] = [];
  turns.forEach((way, turn) => {
    const shape = { ...centred(turnedPolygon(polygon, way)), kind, turn };
    if (!fitsWithin(shape.polygon, largest)) return;
    if (shapes.some((other) => samePolygon(other.polygon, shape.polygon))) return;
    shapes.push(shape);
  });
  if (shapes.length > 0) return shapes;
  const { width = "any length", height = "any length" } = largest;
  throw new RangeError(`Item kind ${kind} is larger than ${width} x ${height} in all its turns`);
}

/** The polygon with the centre of its box at the origin, and where that centre was. */
function centred(polygon: Polygon): { polygon: Polygon; x: number; y: number } {
  const box = extentOf(polygon.outer);
  const x = (box.minX + box.maxX) / 2;
  const y = (box.minY + box.maxY) / 2;
  const moved = (ring: Float64Array): Float64Array => ring.map((value, i) => value - (i % 2 === 0 ? x : y));
  return { polygon: { outer: moved(polygon.outer), openings: polygon.openings.map(moved) }, x, y };
}

/** In how many of its turns a polygon is no larger than a box. */
export function turnsWithin(polygon: Polygon, turns: readonly Turn[], largest: LargestBox): number {
  return turns.filter((turn) => fitsWithin(centred(turnedPolygon(polygon, turn)).polygon, largest)).length;
}

/** Whether a centred polygon's box is within limits, rounding allowed for. */
function fitsWithin(polygon: Polygon, largest: LargestBox): boolean {
  const { maxX, maxY } = extentOf(polygon.outer);
  const { width = Infinity, height = Infinity } = largest;
  return 2 * maxX <= width * (1 + 1e-9) && 2 * maxY <= height * (1 + 1e-9);
}

/** The shape from `first` to before `end` that is shape s turned by an angle in degrees. */
function turnOf(
  shapes: readonly Polygon[],
  s: number,
  rotation: number,
  first: number,
  end: number,
): number | undefined {
  const turned = turnedPolygon(shapes[s], { rotation, mirrored: false });
  for (let t = first; t < end; t++) if (samePolygon(shapes[t], turned)) return t;
  return undefined;
}
