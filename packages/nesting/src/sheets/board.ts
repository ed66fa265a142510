import { counterClockwise, intersect, type Region, regionArea } from "@keelcut/geometry";
import { doubledArea, type Extent, extentOf, type Ring, reversedRing, type Turn } from "../nofit/polygon.js";
import type { SheetShape } from "../shape.js";
import { forbid, type Obstacle, TOUCH } from "./column.js";
import { Landmarks } from "./columns.js";
import { type Gaps, resetGaps } from "./gaps.js";
import { Lines } from "./lines.js";
import { landmarks, moved, movedExtent, type Oriented, turnedRings } from "./oriented.js";
import { crossingsSplit, trapezoids } from "./trapezoids.js";

/**
 * A kind of sheet as the packer sees it. Packing runs along x from the left; a sheet that is to be filled along its
 * y direction is turned by -90 degrees first (`turned`), and so are the plates.
 */
export interface SheetModel {
  readonly turned: boolean;
  /** The box around the places a rim may take. */
  readonly limits: Extent;
  /** What of that box is not sheet, or too near its edge; for rims. */
  readonly fences: readonly Obstacle[];
  /** For bodies. */
  readonly keepOuts: readonly Obstacle[];
  readonly landmarks: readonly number[];
  /** Area where rims may lie, less the keep-outs, mm2. */
  readonly area: number;
}

/** A plate on a board; x and y in the board's frame. */
export interface Laid {
  readonly kind: number;
  readonly turn: Turn;
  readonly x: number;
  readonly y: number;
}

/** The sheet as the packer sees it, or undefined when the edge margin leaves nothing of it. */
export function sheetModel(sheet: SheetShape, turned: boolean): SheetModel | undefined {
  const turn = { rotation: turned ? 270 : 0, mirrored: false };
  const inside = turnedRings(sheet.inside, turn);
  if (inside.length === 0) return undefined;
  const limits = inside.map(extentOf).reduce((a, b) => ({
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  }));
  const outside = obstacle([boxRing(limits), ...inside.map(reversedRing)]);
  const keepOuts = turnedRings(sheet.keepOuts, turn).map((ring) => obstacle([ring]));
  return {
    turned,
    limits,
    fences: outside.pieces.length > 0 ? [outside] : [],
    keepOuts,
    landmarks: [...landmarks(inside), ...keepOuts.flatMap((keepOut) => [keepOut.box.minX, keepOut.box.maxX])],
    area: freeArea(inside, turnedRings(sheet.keepOuts, turn)),
  };
}

/** Keep-outs may overlap each other and reach beyond the sheet: only what they cover of it is taken off, once. */
function freeArea(inside: readonly Ring[], keepOuts: readonly Ring[]): number {
  const whole = inside.reduce((sum, ring) => sum + doubledArea(ring) / 2, 0);
  if (keepOuts.length === 0) return whole;
  const covered = intersect(inside.map(regionOf), keepOuts.map(regionOf));
  return Math.max(0, whole - covered.reduce((sum, region) => sum + regionArea(region), 0));
}

function regionOf(ring: Ring): Region {
  const outer = Array.from({ length: ring.length / 2 }, (_, k) => ({
    x: ring[2 * k],
    y: ring[2 * k + 1],
    bulge: 0,
  }));
  return { outer: counterClockwise(outer), openings: [] };
}

/** One sheet being filled. */
export class Board {
  readonly model: SheetModel;
  readonly laid: Laid[] = [];
  /** x of everything that lies there where a newcomer may touch it: ends of bodies, then their notches and openings. */
  readonly ends: Landmarks = new Landmarks();
  readonly notches: Landmarks = new Landmarks();
  /** Right end of the rightmost body. */
  reach: number;
  private readonly obstacles: Obstacle[];
  /** What is taken on lines across the sheet, for a first look. */
  private readonly lines: Lines;

  constructor(model: SheetModel) {
    this.model = model;
    this.obstacles = [...model.keepOuts];
    for (const x of model.landmarks) this.ends.add(x);
    this.reach = model.limits.minX;
    this.lines = new Lines(model.limits.minX, model.limits.maxX, TOUCH);
    for (const keepOut of model.keepOuts) this.lines.take(keepOut.pieces);
  }

  /** Leaves in `gaps` the y at which the plate may lie at the given x. */
  freeAt(plate: Oriented, x: number, gaps: Gaps): void {
    const { limits, fences } = this.model;
    const low = limits.minY - plate.rim.box.minY;
    const high = limits.maxY - plate.rim.box.maxY;
    resetGaps(gaps, low, Math.max(low, high));
    if (high < low - TOUCH) gaps.count = 0;
    if (gaps.count > 0) this.lines.screen(plate.body, x, gaps);
    if (gaps.count > 0 && fences.length > 0) forbid(plate.rim, x, fences, gaps);
    if (gaps.count > 0) forbid(plate.body, x, this.obstacles, gaps);
  }

  /** First and last x at which the plate's rim is inside the sheet's box; first > last when it is too long. */
  range(plate: Oriented): [number, number] {
    const { limits } = this.model;
    const first = limits.minX - plate.rim.box.minX;
    const last = limits.maxX - plate.rim.box.maxX;
    return last < first && last >= first - TOUCH ? [first, first] : [first, last];
  }

  lay(kind: number, turn: Turn, plate: Oriented, x: number, y: number): void {
    this.laid.push({ kind, turn, x, y });
    const box = movedExtent(plate.body.box, x, y);
    const pieces = moved(plate.body.pieces, x, y);
    this.obstacles.push({ pieces, box });
    this.lines.take(pieces);
    this.ends.add(box.minX);
    this.ends.add(box.maxX);
    for (const landmark of plate.landmarks.slice(2)) this.notches.add(landmark + x);
    this.reach = Math.max(this.reach, box.maxX);
  }
}

function obstacle(rings: readonly Ring[]): Obstacle {
  const box = extentOf(rings[0]);
  return { pieces: trapezoids(crossingsSplit(rings)), box };
}

function boxRing({ minX, minY, maxX, maxY }: Extent): Ring {
  return Float64Array.of(minX, minY, maxX, minY, maxX, maxY, minX, maxY);
}
