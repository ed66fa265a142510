import { type Contour, locate, type Point, type Region } from "@keelcut/geometry";

/**
 * Groups regions by how deep they lie in the openings of others, deepest first: what is cut out of a plate's opening
 * must be cut before that opening's own contour lets it fall. Returns indexes into `regions`.
 */
export function nestingLevels(regions: readonly Region[]): number[][] {
  const levels: number[][] = [];
  regions.forEach((region, index) => {
    const point = region.outer[0];
    if (point === undefined) throw new RangeError(`region ${index} has no outline`);
    const depth = regions.filter((other, j) => j !== index && holds(other, point)).length;
    levels[depth] = [...(levels[depth] ?? []), index];
  });
  return Array.from(levels, (level) => level ?? [])
    .filter((level) => level.length > 0)
    .reverse();
}

function holds(region: Region, point: Point): boolean {
  return region.openings.some((opening) => locate(opening, point) === "inside");
}

/** Neighbours looked at on each side when the tour is shortened, and the most passes over it. */
const WINDOW = 60;
const PASSES = 12;

/**
 * Orders contours for little travel: each next the nearest by start point, then stretches reversed while that
 * shortens the way (2-opt after Croes 1958, within a window). The way starts at `from` and need not return.
 */
export function shortTour(contours: readonly Contour[], from: Point): Contour[] {
  const order = nearestNext(contours, from);
  for (let pass = 0; pass < PASSES; pass++) {
    if (!reverseStretches(order, from)) break;
  }
  return order;
}

/** Where the cutter ends after a tour: closed contours end where they start. */
export function tourEnd(contours: readonly Contour[], from: Point): Point {
  return contours.at(-1)?.[0] ?? from;
}

function nearestNext(contours: readonly Contour[], from: Point): Contour[] {
  const rest = [...contours];
  const order: Contour[] = [];
  let here = from;
  while (rest.length > 0) {
    let best = 0;
    let least = Number.POSITIVE_INFINITY;
    rest.forEach((contour, index) => {
      const way = between(here, contour[0]);
      if (way < least) [best, least] = [index, way];
    });
    const [next] = rest.splice(best, 1);
    if (next === undefined) break;
    order.push(next);
    here = next[0] ?? here;
  }
  return order;
}

function reverseStretches(order: Contour[], from: Point): boolean {
  let shortened = false;
  for (let i = 0; i < order.length; i++) {
    const before = i === 0 ? from : order[i - 1]?.[0];
    for (let j = i + 1; j < Math.min(order.length, i + WINDOW); j++) {
      const first = order[i]?.[0];
      const last = order[j]?.[0];
      const after = order[j + 1]?.[0];
      const now = between(before, first) + between(last, after);
      const then = between(before, last) + between(first, after);
      if (then < now - 1e-9) {
        order.splice(i, j - i + 1, ...order.slice(i, j + 1).reverse());
        shortened = true;
      }
    }
  }
  return shortened;
}

/** 0 past the end of the tour. */
function between(a: Point | undefined, b: Point | undefined): number {
  return a === undefined || b === undefined ? 0 : Math.hypot(a.x - b.x, a.y - b.y);
}
