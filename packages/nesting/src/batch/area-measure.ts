import {
  type Contour,
  counterClockwise,
  intersect,
  offsetContour,
  offsetRegion,
  type Region,
  regionArea,
  signedArea,
  unite,
} from "@keelcut/geometry";
import type { Spacing } from "../shape.js";
import type { Setup } from "../sheets/prepare.js";
import { mayHold, type Outline, outlines } from "./inscribed.js";
import type { Measure } from "./measure.js";
import type { StockShape } from "./shapes.js";

/**
 * Area with clearance: plates grown by half the clearance do not overlap, and lie within the usable sheet grown
 * likewise. Openings in which none of the wanted plates can lie count as material; then a keep-out that might lie in an
 * opening still counts as sheet. Exact areas of lines and arcs.
 */
export function areaMeasure(
  { kinds, job }: Setup,
  shapes: readonly StockShape[],
  demand: readonly number[],
): Measure {
  const plates = outlines(kinds.map((kind) => kind.part.region));
  const wanted = plates.filter((_, kind) => (demand[kind] as number) > 0);
  const grown = kinds.map(({ index, part }) =>
    (demand[index] as number) > 0 ? grownRegions(part.region, job.clearance) : [],
  );
  const openings = grown.flat().flatMap((piece) => piece.openings);
  return {
    weights: grown.map((pieces) => grownArea(pieces, wanted, job.clearance / 2)),
    capacities: shapes.map((shape) => usableArea(shape, job, openings)),
    because: "the area of the plates, each grown by half the clearance, against that of the usable sheet",
  };
}

/**
 * Area with clearance and without openings: the plates of a sheet that lie in no opening do not overlap with their
 * openings filled. Kinds of which a copy might lie in an opening count nothing. Empty when that tells no more than
 * `areaMeasure`, because all openings count as material there or all plates might lie in one.
 */
export function filledAreaMeasures(
  { kinds, job }: Setup,
  shapes: readonly StockShape[],
  demand: readonly number[],
): Measure[] {
  const distance = job.clearance / 2;
  const plates = outlines(kinds.map((kind) => kind.part.region));
  const wanted = kinds.filter((_, kind) => (demand[kind] as number) > 0);
  const grown = kinds.map(({ part }) => grownRegions(part.region, job.clearance));
  const openings = wanted.flatMap(({ index }) => grown[index].flatMap((piece) => piece.openings));
  const inside = wanted.filter(({ index }) =>
    openings.some((opening) => mayHold(opening, plates[index], distance)),
  );
  if (inside.length === 0 || inside.length === wanted.length) return [];
  const names = inside.map(({ part }) => part.id).join(", ");
  return [
    {
      weights: kinds.map((kind, index) => {
        if (!wanted.includes(kind) || inside.includes(kind)) return 0;
        return grown[index].reduce((sum, { outer }) => sum + signedArea(outer), 0);
      }),
      capacities: shapes.map((shape) => usableArea(shape, job, openings)),
      because: `the area of the plates, each grown by half the clearance and with its openings filled, against that of the usable sheet; what might lie in an opening counts nothing (${names})`,
    },
  ];
}

/** Area of a plate's grown regions; openings in which none of the plates can lie count as material. */
function grownArea(pieces: readonly Region[], wanted: readonly Outline[], distance: number): number {
  return pieces.reduce((sum, piece) => {
    const openings = piece.openings.filter((opening) =>
      wanted.some((plate) => mayHold(opening, plate, distance)),
    );
    return sum + regionArea({ outer: piece.outer, openings });
  }, 0);
}

function grownRegions(region: Region, clearance: number): Region[] {
  return clearance === 0 ? [region] : offsetRegion(region, clearance / 2);
}

/** The openings of regions grown by half a clearance: what is left of them for others grown likewise. */
export function grownOpenings(regions: readonly Region[], clearance: number): Contour[] {
  return regions.flatMap((region) => grownRegions(region, clearance)).flatMap((piece) => piece.openings);
}

/** Where grown plates can lie, which may have such openings: keep-outs that might lie in one are not taken off. */
function usableArea(
  shape: StockShape,
  { edgeMargin, clearance }: Spacing,
  openings: readonly Contour[],
): number {
  const stock = shape.pieces[0]?.stock;
  if (stock === undefined) return 0;
  const inside = edgeMargin === 0 ? [stock.outline] : offsetContour(stock.outline, -edgeMargin);
  const usable = inside
    .filter((contour) => signedArea(contour) > 0)
    .flatMap((contour) => (clearance === 0 ? [contour] : offsetContour(contour, clearance / 2)))
    .filter((contour) => signedArea(contour) > 0);
  const regions = unite(usable.map((outer) => ({ outer, openings: [] })));
  const total = regions.reduce((sum, region) => sum + regionArea(region), 0);
  const blocked = stock.keepOuts.flatMap((keepOut): Region[] => {
    const area = { outer: counterClockwise(keepOut), openings: [] };
    const [body] = outlines([area]);
    if (openings.some((opening) => mayHold(opening, body, clearance / 2))) return [];
    return grownRegions(area, clearance);
  });
  if (blocked.length === 0) return total;
  return total - intersect(regions, blocked).reduce((sum, region) => sum + regionArea(region), 0);
}
