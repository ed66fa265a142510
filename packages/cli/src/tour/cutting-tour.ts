import type { Contour, Point, Region } from "@keelcut/geometry";
import { nestingDepths } from "./nesting-depths.js";
import { shortTour } from "./short-tour.js";

/** One contour in the order of cutting. */
export interface CutStop {
  /** Index of its region. */
  readonly region: number;
  /** `outline`, or the index of the opening. */
  readonly part: "outline" | number;
  readonly contour: Contour;
  /** Where it is entered and left. */
  readonly entry: Point;
}

export interface CuttingTour {
  readonly stops: readonly CutStop[];
  /** Straight moves from the sheet's corner (0, 0) through the entries and back, mm. */
  readonly moves: readonly number[];
}

/**
 * The order in which a sheet's contours are cut: what lies in openings first, deepest first; of each depth all openings before all outlines, so that the sheet stays stiff and plates do not move; within that a
 * short tour, each contour entered at one of its vertices. The drawings and the cost share it; the cost knows nothing of
 * where lead-ins and bridges make a drawn line begin, which changes its moves by a few millimetres a contour.
 *
 * @param entriesOf where a contour may be entered; its vertices when absent
 */
export function cuttingTour(
  regions: readonly Region[],
  entriesOf: (contour: Contour) => readonly Point[] = (contour) => contour,
): CuttingTour {
  const depths = nestingDepths(regions);
  const contours = regions.flatMap((region, index) => {
    const depth = depths[index] ?? 0;
    return [
      ...region.openings.map((contour, part) => ({ region: index, part, contour, phase: -2 * depth - 1 })),
      { region: index, part: "outline" as const, contour: region.outer, phase: -2 * depth },
    ];
  });
  const tour = shortTour(
    contours.map(({ contour, phase }) => ({ entries: entriesOf(contour), phase })),
    { x: 0, y: 0 },
  );
  const stops = tour.order.flatMap((at, index): CutStop[] => {
    const [found, entry] = [contours[at], tour.entries[index]];
    if (found === undefined || entry === undefined) return [];
    const { region, part, contour } = found;
    return [{ region, part, contour, entry }];
  });
  return { stops, moves: tour.moves };
}
