import { bounds } from "@keelcut/geometry";
import type { Setup } from "../sheets/prepare.js";
import { grownOpenings } from "./area-measure.js";
import { mayHold, outlines } from "./inscribed.js";
import type { Measure } from "./measure.js";
import type { StockShape } from "./shapes.js";

/**
 * At most k of the plates that contain a disc of some radius fit a sheet, for each radius among the plates. Leaves a
 * radius out where one of these plates might lie in an opening of another.
 *
 * The middles of the discs are at least their diameter and the clearance apart, and inside the sheet by the edge margin
 * and the radius.
 */
export function discMeasures(
  { kinds, job }: Setup,
  shapes: readonly StockShape[],
  demand: readonly number[],
): Measure[] {
  const plates = outlines(kinds.map((kind) => kind.part.region));
  const wanted = kinds.flatMap(({ index }) => ((demand[index] as number) > 0 ? [index] : []));
  const radiusOf = (kind: number): number => plates[kind]?.radius ?? 0;
  const radii = [...new Set(wanted.map(radiusOf))].filter((radius) => radius > 0);
  return radii.flatMap((radius): Measure[] => {
    const among = wanted.filter((kind) => radiusOf(kind) >= radius);
    const openings = grownOpenings(
      among.flatMap((kind) => kinds[kind]?.part.region ?? []),
      job.clearance,
    );
    const nested = openings.some((opening) =>
      among.some((kind) => {
        const plate = plates[kind];
        return plate !== undefined && mayHold(opening, plate, job.clearance / 2);
      }),
    );
    if (nested) return [];
    const apart = 2 * radius + job.clearance;
    const capacities = shapes.map((shape) => {
      const box = bounds(shape.pieces[0]?.stock.outline ?? []);
      const inset = 2 * (job.edgeMargin + radius);
      return mostPoints(box.maxX - box.minX - inset, box.maxY - box.minY - inset, apart);
    });
    if (Math.max(...capacities) === 0) return [];
    const names = among.map((kind) => kinds[kind]?.part.id).join(", ");
    return [
      {
        weights: kinds.map(({ index }) => (among.includes(index) ? 1 : 0)),
        capacities,
        because: `at most ${Math.max(...capacities)} plates with a disc of ${(2 * radius).toFixed(1)} mm in them fit one sheet (${names})`,
      },
    ];
  });
}

/**
 * No more than so many points lie in a rectangle with any two at least `apart` from each other. The least of two bounds:
 * 2/sqrt(3) A / d^2 + P / (2 d) + 1 for area A and perimeter P of a convex set (Oler, Acta Mathematica 105, 1961), and
 * one point a cell for any grid of cells whose diagonal is shorter than `apart`.
 */
export function mostPoints(width: number, height: number, apart: number): number {
  const [w, h] = [width / apart, height / apart];
  if (w < -1e-9 || h < -1e-9) return 0;
  const [x, y] = [Math.max(0, w), Math.max(0, h)];
  let most = Math.floor((2 / Math.sqrt(3)) * x * y + x + y + 1 + 1e-9);
  const columns = Math.floor(x) + 1;
  for (let across = columns; across <= 2 * columns + 2; across++) {
    const left = 1 - (x / across) ** 2;
    if (left <= 1e-9) continue;
    const rows = Math.max(1, Math.floor(y / Math.sqrt(left) + 1e-9) + 1);
    most = Math.min(most, across * rows);
  }
  return most;
}
