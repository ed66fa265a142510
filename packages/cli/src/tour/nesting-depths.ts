import { type Box, bounds, type Contour, locate, type Region } from "@keelcut/geometry";

/**
 * How many openings of other regions each region lies in. What lies in an opening is cut before that opening is, or it would
 * fall out uncut.
 */
export function nestingDepths(regions: readonly Region[]): number[] {
  const boxes = regions.map((region) => bounds(region.outer));
  const smallest = Math.min(...boxes.map((box) => Math.min(box.maxX - box.minX, box.maxY - box.minY)));
  // Most openings are screw holes, into which no plate fits: they are left out before plates are looked for in them.
  const roomy = regions
    .flatMap((region, owner) => region.openings.map((contour) => ({ owner, contour, box: bounds(contour) })))
    .filter(({ box }) => Math.min(box.maxX - box.minX, box.maxY - box.minY) >= smallest);
  return regions.map(({ outer }, index) => {
    const box = boxes[index] ?? bounds(outer);
    const around = roomy.filter(
      (opening) => opening.owner !== index && holds(opening.box, box) && contains(opening.contour, outer),
    );
    return around.length;
  });
}

function contains(opening: Contour, outer: Contour): boolean {
  const vertex = outer[0];
  return vertex !== undefined && locate(opening, vertex) === "inside";
}

function holds(outer: Box, inner: Box): boolean {
  return (
    outer.minX <= inner.minX &&
    outer.minY <= inner.minY &&
    outer.maxX >= inner.maxX &&
    outer.maxY >= inner.maxY
  );
}
