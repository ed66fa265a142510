import { bounds, signedArea } from "@keelcut/geometry";
import { hullOf } from "../nofit/hull.js";
import { doubledArea, extentOf, type Polygon, type Ring, type Turn } from "../nofit/polygon.js";
import type { SheetProblem } from "../search/fill-sheet.js";
import { packingShape, sheetShape, withUsableOpenings } from "../shape.js";
import type { PlateKind } from "../sheets/kind.js";
import type { Setup } from "../sheets/prepare.js";
import { DISTANCE_TOLERANCE } from "../verify.js";
import type { StockShape } from "./shapes.js";

/** A kind of plate for the guided search: few corners and few turns, so that its table is built in a moment. */
export interface CoarsePlate {
  /** The plate grown by half the clearance; never smaller, a little larger. */
  readonly body: Polygon;
  readonly turns: readonly Turn[];
  /** Area a plate like this takes on a full sheet, roughly, mm2: between that of its outline and of its hull. */
  readonly taken: number;
}

/** Distance of the coarse outline from the true one, as a share of the plate's size: about 15 to 45 corners a plate. */
const COARSE = 0.003;

/** Most shapes, which are turns of a kind, among which no-fit regions are built: half their square of about 1 ms each. */
const MOST_SHAPES = 64;

/** The plates for a search on the shape, when so many kinds are wanted. */
export function coarsePlates({ kinds, job }: Setup, wanted: number, shape: StockShape): CoarsePlate[] {
  const clearance = job.clearance + slackOn(shape, Math.max(...kinds.map((kind) => kind.longest)));
  const shapes = withUsableOpenings(
    kinds.map((kind) => {
      const chordError = Math.max(job.chordError, COARSE * Math.sqrt(kind.grossArea));
      return packingShape(kind.part.region, { ...job, clearance, chordError });
    }),
  );
  const most = Math.floor(MOST_SHAPES / Math.max(1, wanted));
  return kinds.map((kind, index) => {
    const body = shapes[index]?.body as Polygon;
    const taken = (doubledArea(body.outer) + doubledArea(hullOf(body.outer))) / 4;
    return { body, turns: fewTurns(kind, most), taken };
  });
}

/** Steps of its grid by which the guided search may let two plates come too close: it shrinks both by some, and rounds. */
const GRID_STEPS = 24;

/**
 * What plates are grown by beside the clearance, mm: nothing while the grid of the largest shape is fine enough for the
 * check. Around a sheet that is no plain rectangle a frame of three times its size is laid.
 */
function slackOn({ pieces }: StockShape, longest: number): number {
  const stock = pieces[0]?.stock;
  if (stock === undefined) return 0;
  const box = bounds(stock.outline);
  const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  const area = (box.maxX - box.minX) * (box.maxY - box.minY);
  const plain = signedArea(stock.outline) >= area * (1 - 1e-12);
  const extent = Math.max(longest, plain ? 0 : 3 * size);
  const slack = GRID_STEPS * 2 ** (Math.ceil(Math.log2(extent)) - 34);
  return slack > DISTANCE_TOLERANCE ? slack : 0;
}

/** The usual attitudes, or as many as allowed: half turns first, for a plate and its half turn share their regions. */
function fewTurns(kind: PlateKind, most: number): readonly Turn[] {
  const rank = ({ rotation, mirrored }: Turn): number =>
    (rotation % 180 === 0 ? 0 : rotation % 90 === 0 ? 1 : 3) + (mirrored ? 1 : 0);
  return kind.usual.toSorted((a, b) => rank(a) - rank(b)).slice(0, Math.max(1, most));
}

/** The sheet with so many copies at most; undefined when its edge margin leaves nothing, or several pieces, of it. */
export function coarseSheet(
  { job }: Setup,
  shape: StockShape,
  plates: readonly CoarsePlate[],
  limits: readonly number[],
): SheetProblem | undefined {
  const stock = shape.pieces[0]?.stock;
  if (stock === undefined) return undefined;
  const { inside, keepOuts } = sheetShape(stock, job);
  const [outer, ...others] = inside;
  if (outer === undefined || others.length > 0) return undefined;
  // Bodies keep half the clearance from the edge, and need only the edge margin: a rectangle can be larger by the rest.
  const spare = Math.max(0, job.clearance / 2 - job.edgeMargin);
  return {
    outline: { outer: spare > 0 && isBox(outer) ? grownBox(outer, spare) : outer, openings: [] },
    fixed: keepOuts.map((keepOut) => ({ outer: keepOut, openings: [] })),
    items: plates.map(({ body, turns }, kind) => ({ polygon: body, turns, limit: limits[kind] as number })),
  };
}

/** True for a rectangle along the axes. */
export function isBox(ring: Ring): boolean {
  const box = extentOf(ring);
  const area = (box.maxX - box.minX) * (box.maxY - box.minY);
  return doubledArea(ring) / 2 >= area * (1 - 1e-12);
}

function grownBox(ring: Ring, by: number): Ring {
  const { minX, maxX, minY, maxY } = extentOf(ring);
  const [left, right, low, high] = [minX - by, maxX + by, minY - by, maxY + by];
  return Float64Array.of(left, low, right, low, right, high, left, high);
}
