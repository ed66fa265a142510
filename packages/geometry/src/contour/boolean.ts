import { rememberedBy } from "../remember.js";
import { arrange, type Edge, piecesOf, reversedEdge } from "./arrangement.js";
import type { Region } from "./contour.js";
import { refuseNonFiniteContours } from "./refuse.js";
import { regionsFromEdges } from "./stitch.js";
import { regionFaults } from "./validate.js";
import { edgeWindings } from "./winding.js";

/**
 * The material covered by any of the regions. Arcs stay arcs; regions that overlap, share edges or are equal are fine.
 * Regions that touch at single points only stay apart. Contours that nothing meets come back as they were.
 */
export function unite(regions: readonly Region[]): readonly Region[] {
  return combine(regions, [], "unite");
}

/** The material of `a` that no region of `b` covers. */
export function subtract(a: readonly Region[], b: readonly Region[]): readonly Region[] {
  return combine(a, b, "subtract");
}

/** The material covered by both `a` and `b`. */
export function intersect(a: readonly Region[], b: readonly Region[]): readonly Region[] {
  return combine(a, b, "intersect");
}

type Wanted = (inA: boolean, inB: boolean) => boolean;

const wantedBy: Readonly<Record<"unite" | "subtract" | "intersect", Wanted>> = {
  unite: (inA) => inA,
  subtract: (inA, inB) => inA && !inB,
  intersect: (inA, inB) => inA && inB,
};

/** Variations of a frame cut most shapes alike: each is combined once. */
const combine = rememberedBy(
  500,
  (a: readonly Region[], b: readonly Region[], how: keyof typeof wantedBy) => JSON.stringify([a, b, how]),
  (a: readonly Region[], b: readonly Region[], how: keyof typeof wantedBy): readonly Region[] => {
    refuseNonFiniteContours([...a, ...b].flatMap((region) => [region.outer, ...region.openings]));
    return settled(combineOnce(a, b, wantedBy[how]));
  },
);

/** Moving ends onto nodes may bring a vertex within the tolerance of a curve it cleared before: such needles go in another pass. */
export function settled(regions: readonly Region[]): Region[] {
  let result = [...regions];
  for (let pass = 0; pass < MOST_PASSES && result.some((region) => regionFaults(region).length > 0); pass++) {
    result = combineOnce(result, [], (inA) => inA);
  }
  return result;
}

const MOST_PASSES = 3;

/**
 * Cuts all contours at all meetings, keeps each edge that has wanted material on one side only, turned so that it lies on the left,
 * and stitches these. A point is in a set when its contours wind around it more than zero times.
 */
function combineOnce(a: readonly Region[], b: readonly Region[], wanted: Wanted): Region[] {
  const contours = [...a, ...b].flatMap((region, index) =>
    [region.outer, ...region.openings].map((contour) => ({
      contour,
      set: index < a.length ? (0 as const) : (1 as const),
    })),
  );
  const arrangement = arrange(contours.flatMap(({ contour, set }, number) => piecesOf(contour, number, set)));
  const windings = edgeWindings(arrangement);
  const isWanted = (counts: readonly [number, number] | undefined): boolean =>
    counts !== undefined && wanted(counts[0] > 0, counts[1] > 0);
  const kept = arrangement.edges.flatMap((edge, index): Edge[] => {
    const left = isWanted(windings[index]?.left);
    if (left === isWanted(windings[index]?.right)) return [];
    return [left ? edge : reversedEdge(edge)];
  });
  return regionsFromEdges(arrangement, kept);
}
