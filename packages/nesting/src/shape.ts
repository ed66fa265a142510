import {
  type Contour,
  counterClockwise,
  flatten,
  offsetContour,
  offsetRegion,
  type Point,
  type Region,
  signedArea,
} from "@keelcut/geometry";
import type { NestJob, Stock } from "./job.js";
import { doubledArea, extentOf, type Polygon, type Ring, reversedRing } from "./nofit/polygon.js";
import { simplifyOutward } from "./simplify.js";

/** How far things keep apart, and how coarse the polygons may be, mm. */
export type Spacing = Pick<NestJob, "clearance" | "edgeMargin" | "chordError">;

/**
 * A plate as polygons for packing. They are never smaller than what they stand for and nowhere further from it than
 * the spacing's chord error.
 */
export interface PackingShape {
  /** The plate grown by half the clearance: plates whose bodies do not overlap are at least the clearance apart. */
  readonly body: Polygon;
  /**
   * The outline grown by what the sheet's edge asks of the plate: half the clearance or the edge margin, whichever is
   * less. While it stays inside `SheetShape.inside`, the plate keeps the edge margin.
   */
  readonly rim: Ring;
}

/** A piece of stock as polygons for packing. */
export interface SheetShape {
  /** Where rims may lie: the outline shrunk by what `PackingShape.rim` leaves of the edge margin. Counter-clockwise. */
  readonly inside: readonly Ring[];
  /** Where bodies must not lie: the keep-outs grown by half the clearance. */
  readonly keepOuts: readonly Ring[];
}

/**
 * The packing polygons of a plate. Half of the chord error goes into flattening arcs, half into dropping corners.
 *
 * Growing the outline while the sheet shrinks by the rest is exact for every sheet; shrinking the sheet by the edge
 * margin less half the clearance would not be when that is negative: growing a sheet fills its inner corners.
 */
export function packingShape(region: Region, spacing: Spacing): PackingShape {
  const body = grown(region, spacing.clearance / 2);
  const outer = flattened(body.outer, spacing.chordError);
  const openings = body.openings
    .map((opening) => flattened(opening, spacing.chordError))
    .filter((ring) => doubledArea(ring) < 0);
  const growth = rimGrowth(spacing);
  const rim =
    growth === spacing.clearance / 2
      ? outer
      : flattened(grown({ outer: region.outer, openings: [] }, growth).outer, spacing.chordError);
  return { body: { outer, openings }, rim };
}

/** The packing polygons of a piece of stock. `inside` is empty when the margin leaves nothing. */
export function sheetShape(stock: Stock, spacing: Spacing): SheetShape {
  const shrink = spacing.edgeMargin - rimGrowth(spacing);
  const inside = grownContours(stock.outline, -shrink);
  return {
    inside: inside
      .filter((contour) => signedArea(contour) > 0)
      .map((contour) => shrunk(contour, spacing.chordError))
      .filter((ring) => doubledArea(ring) > 0),
    keepOuts: stock.keepOuts.flatMap((keepOut) =>
      grownContours(counterClockwise(keepOut), spacing.clearance / 2).map((contour) =>
        flattened(contour, spacing.chordError),
      ),
    ),
  };
}

/**
 * The shapes without the openings that no plate of the job can lie in: the smallest body has a larger area or is
 * longer across its narrow side than the opening's diagonal.
 */
export function withUsableOpenings(shapes: readonly PackingShape[]): PackingShape[] {
  const leastArea = Math.min(...shapes.map((shape) => doubledArea(shape.body.outer) / 2));
  const leastWidth = Math.min(...shapes.map((shape) => leastExtent(shape.body.outer)));
  return shapes.map((shape) => ({
    ...shape,
    body: {
      outer: shape.body.outer,
      openings: shape.body.openings.filter((opening) => {
        const box = extentOf(opening);
        const diagonal = Math.hypot(box.maxX - box.minX, box.maxY - box.minY);
        return -doubledArea(opening) / 2 >= leastArea && diagonal >= leastWidth;
      }),
    },
  }));
}

/**
 * The narrowest extent of a ring over all directions square to its edges, mm: its width when it is convex, else at least
 * that and at most its diameter.
 */
export function leastExtent(ring: Ring): number {
  let least = Infinity;
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    const dx = ring[j] - ring[i];
    const dy = ring[j + 1] - ring[i + 1];
    const length = Math.hypot(dx, dy);
    if (length === 0) continue;
    let low = Infinity;
    let high = -Infinity;
    for (let k = 0; k < ring.length; k += 2) {
      const across = (ring[k + 1] * dx - ring[k] * dy) / length;
      low = Math.min(low, across);
      high = Math.max(high, across);
    }
    least = Math.min(least, high - low);
  }
  return least;
}

function rimGrowth(spacing: Spacing): number {
  return Math.min(spacing.edgeMargin, spacing.clearance / 2);
}

function grown(region: Region, distance: number): Region {
  if (distance === 0) return region;
  const [only, ...more] = offsetRegion(region, distance);
  if (only === undefined || more.length > 0) {
    throw new Error(
      `growing a plate by ${distance} mm gave ${more.length + (only ? 1 : 0)} pieces instead of one`,
    );
  }
  return only;
}

function grownContours(contour: Contour, distance: number): readonly Contour[] {
  return distance === 0 ? [contour] : offsetContour(contour, distance);
}

/** The polygon of a contour with the material on its left, on the side that has more material. */
function flattened(contour: Contour, chordError: number): Ring {
  const side = signedArea(contour) > 0 ? "outside" : "inside";
  return simplifyOutward(ring(flatten(contour, chordError / 2, side)), chordError / 2);
}

/** A polygon inside a counter-clockwise contour. */
function shrunk(contour: Contour, chordError: number): Ring {
  const inside = ring(flatten(contour, chordError / 2, "inside"));
  return reversedRing(simplifyOutward(reversedRing(inside), chordError / 2));
}

function ring(points: readonly Point[]): Ring {
  return Float64Array.from(points.flatMap((point) => [point.x, point.y]));
}
