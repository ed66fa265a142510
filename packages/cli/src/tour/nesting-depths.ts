import { type Box, bounds, type Contour, locate, pointAt, type Region, segments } from "@keelcut/geometry";

/**
 * How many openings of other regions each region lies in. What lies in an opening is cut before that opening is, or it would
 * fall out uncut.
 */
export function nestingDepths(regions: readonly Region[]): number[] {
  return openingsAround(regions).map((around) => around.length);
}

/** An opening of one of several regions. */
export interface OpeningOf {
  readonly region: number;
  /** Index of the opening in its region. */
  readonly part: number;
}

/** For each region the openings of other regions that it lies in, the smallest first. */
export function openingsAround(regions: readonly Region[]): OpeningOf[][] {
  const boxes = regions.map((region) => bounds(region.outer));
  const smallest = Math.min(...boxes.map((box) => Math.min(box.maxX - box.minX, box.maxY - box.minY)));
  // Most openings are screw holes, into which no plate fits: they are left out before plates are looked for in them.
  const roomy = regions
    .flatMap((region, owner) =>
      region.openings.map((contour, part) => ({ owner, part, contour, box: bounds(contour) })),
    )
    .filter(({ box }) => Math.min(box.maxX - box.minX, box.maxY - box.minY) >= smallest);
  return regions.map(({ outer }, index) => {
    const box = boxes[index] ?? bounds(outer);
    const around = roomy.filter(
      (opening) => opening.owner !== index && holds(opening.box, box) && contains(opening.contour, outer),
    );
    return around
      .toSorted((a, b) => areaOf(a.box) - areaOf(b.box))
      .map(({ owner, part }) => ({ region: owner, part }));
  });
}

function areaOf({ minX, minY, maxX, maxY }: Box): number {
  return (maxX - minX) * (maxY - minY);
}

function contains(opening: Contour, outer: Contour): boolean {
  // Lines may touch: whichever corner or middle of a side lies off the line tells the side.
  const points = [...outer, ...segments(outer).map((piece) => pointAt(piece, 0.5))];
  for (const point of points) {
    const place = locate(opening, point);
    if (place !== "on") return place === "inside";
  }
  return false;
}

function holds(outer: Box, inner: Box): boolean {
  return (
    outer.minX <= inner.minX &&
    outer.minY <= inner.minY &&
    outer.maxX >= inner.maxX &&
    outer.maxY >= inner.maxY
  );
}
