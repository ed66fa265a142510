import { bounds, type Contour, signedArea } from "@keelcut/geometry";
import type { Setup } from "../sheets/prepare.js";
import { DISTANCE_TOLERANCE } from "../verify.js";
import { grownOpenings } from "./area-measure.js";
import { dualFeasibleFunctions } from "./dual-feasible.js";
import { mayHold, outlines } from "./inscribed.js";
import type { Measure } from "./measure.js";
import type { StockShape } from "./shapes.js";

/** Measures kept: those that ask for the most sheets. */
const MOST_MEASURES = 4;

/**
 * Rectangular plates that may only be turned by quarters, against the box of the roomiest sheet: sides grown by what the
 * clearance asks for are put through dual-feasible functions, and the areas that result are added up. A plate that may
 * lie either way counts as the less of its two. All other plates count nothing, nor do those that might lie in an opening.
 *
 * Two rectangles that lie askew of each other keep the clearance c when they are c / sqrt(2) apart both ways, so that much
 * is what rectangles grown on all sides may take together without meeting.
 */
export function rectangleMeasures(
  { kinds, job }: Setup,
  shapes: readonly StockShape[],
  demand: readonly number[],
): Measure[] {
  const rooms = shapes.map((shape) => boxOf(shape.pieces[0]?.stock.outline ?? []));
  const apart = job.clearance * Math.SQRT1_2;
  const inset = apart - 2 * job.edgeMargin;
  const length = Math.max(...rooms.map((room) => room.length)) + inset;
  const width = Math.max(...rooms.map((room) => room.width)) + inset;
  if (!(length > 0 && width > 0)) return [];
  // A hair less than their size: plates may stand a tolerance closer than the clearance, and a smaller size only counts less.
  const grow = apart - 3 * DISTANCE_TOLERANCE;
  const wanted = kinds.filter(({ index }) => (demand[index] as number) > 0).map(({ part }) => part.region);
  const rectangles = kinds.map(({ index, part }) =>
    (demand[index] as number) > 0 ? attitudesOf(part.region.outer, part.rotations) : [],
  );
  if (rectangles.every((attitudes) => attitudes.length === 0)) return [];
  const openings = grownOpenings(wanted, job.clearance);
  const bodies = outlines(kinds.map(({ part }) => part.region));
  const plates = rectangles.map((attitudes, index) => {
    const mayNest = openings.some((opening) => mayHold(opening, bodies[index], job.clearance / 2));
    return (mayNest ? [] : attitudes).map((box): [number, number] => [
      Math.min(1, (box.length + grow) / length),
      Math.min(1, (box.width + grow) / width),
    ]);
  });
  const sizes = plates.flat();
  if (sizes.length === 0) return [];
  const along = dualFeasibleFunctions(sizes.map(([x]) => x));
  const across = dualFeasibleFunctions(sizes.map(([, y]) => y));
  const found: (Measure & { need: number })[] = [];
  for (const f of along) {
    for (const g of across) {
      const weights = plates.map((attitudes) =>
        attitudes.length === 0 ? 0 : Math.min(...attitudes.map(([x, y]) => f(x) * g(y))),
      );
      const need = weights.reduce((sum, weight, kind) => sum + weight * (demand[kind] as number), 0);
      found.push({ weights, capacities: shapes.map(() => 1), because: BECAUSE, need });
    }
  }
  return found
    .sort((a, b) => b.need - a.need)
    .slice(0, MOST_MEASURES)
    .map(({ need: _, ...measure }) => measure);
}

const BECAUSE =
  "the sides of the rectangular plates, put through dual-feasible functions, against those of the usable sheet";

interface Size {
  readonly length: number;
  readonly width: number;
}

/** The boxes in which a plate may lie; none unless it is a rectangle turned by quarters only. */
function attitudesOf(outer: Contour, rotations: "any" | readonly number[]): Size[] {
  if (rotations === "any" || rotations.some((angle) => angle % 90 !== 0)) return [];
  const { length, width } = boxOf(outer);
  // Rounding alone: boxes of rectangles with the smallest chamfer may meet.
  if (signedArea(outer) < length * width * (1 - 1e-12)) return [];
  const level = rotations.some((angle) => angle % 180 === 0);
  const upright = rotations.some((angle) => angle % 180 !== 0);
  return [...(level ? [{ length, width }] : []), ...(upright ? [{ length: width, width: length }] : [])];
}

function boxOf(contour: Contour): Size {
  const box = bounds(contour);
  return { length: box.maxX - box.minX, width: box.maxY - box.minY };
}
