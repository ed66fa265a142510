import { extentOf, type Polygon, polygonArea, type Ring } from "../nofit/polygon.js";

/**
 * Inscribed circles that stand in for a polygon when overlaps are measured: three numbers each, x, y, radius.
 *
 * The first is the largest inscribed circle, about the pole of inaccessibility (Garcia-Castellanos and Lombardo 2007,
 * "Poles of inaccessibility"); each next one is the largest that stays clear of those before, until together they cover
 * `COVER` of the area or there are `MOST` of them. Found by splitting squares, the most promising first, as long as one
 * may still hold a better centre. Cost: some hundred distance computations a circle, each the number of edges.
 */
export function polesOf(polygon: Polygon): Float64Array {
  const rings = [polygon.outer, ...polygon.openings];
  const area = polygonArea(polygon);
  const poles: number[] = [];
  let covered = 0;
  while (poles.length < 3 * MOST && covered < COVER * area) {
    const pole = largestFree(rings, poles);
    if (pole.radius <= 0) break;
    poles.push(pole.x, pole.y, pole.radius);
    covered += Math.PI * pole.radius ** 2;
  }
  return Float64Array.from(poles);
}

const MOST = 12;
const COVER = 0.9;

interface Square {
  readonly x: number;
  readonly y: number;
  readonly half: number;
  readonly radius: number;
}

function largestFree(
  rings: readonly Ring[],
  poles: readonly number[],
): { x: number; y: number; radius: number } {
  const box = extentOf(rings[0]);
  const precision = 0.01 * Math.min(box.maxX - box.minX, box.maxY - box.minY);
  const at = (x: number, y: number, half: number): Square => ({
    x,
    y,
    half,
    radius: clearRadius(rings, poles, x, y),
  });
  const half = Math.max(box.maxX - box.minX, box.maxY - box.minY) / 2;
  let best = at((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2, half);
  const open = [best];
  while (open.length > 0) {
    const square = takeMostPromising(open);
    if (promise(square) <= best.radius + precision) break;
    const h = square.half / 2;
    for (const [dx, dy] of [
      [-h, -h],
      [h, -h],
      [-h, h],
      [h, h],
    ]) {
      const part = at(square.x + dx, square.y + dy, h);
      if (part.radius > best.radius) best = part;
      open.push(part);
    }
  }
  return best;
}

/** No centre within a square can have a larger circle. */
function promise(square: Square): number {
  return square.radius + Math.SQRT2 * square.half;
}

function takeMostPromising(open: Square[]): Square {
  let at = 0;
  for (let k = 1; k < open.length; k++) if (promise(open[k]) > promise(open[at])) at = k;
  const square = open[at];
  open[at] = open[open.length - 1];
  open.pop();
  return square;
}

/** Largest radius of a circle about (x, y) inside the rings and clear of the poles; negative outside. */
function clearRadius(rings: readonly Ring[], poles: readonly number[], x: number, y: number): number {
  let leastSquare = Infinity;
  let inside = false;
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const dx = ring[i] - ring[j];
      const dy = ring[i + 1] - ring[j + 1];
      const t = ((x - ring[j]) * dx + (y - ring[j + 1]) * dy) / (dx * dx + dy * dy);
      const s = t < 0 ? 0 : t > 1 ? 1 : t;
      const px = x - ring[j] - s * dx;
      const py = y - ring[j + 1] - s * dy;
      const square = px * px + py * py;
      if (square < leastSquare) leastSquare = square;
      if (ring[j + 1] > y !== ring[i + 1] > y && x < ring[j] + ((y - ring[j + 1]) * dx) / dy)
        inside = !inside;
    }
  }
  const least = Math.sqrt(leastSquare);
  let radius = inside ? least : -least;
  for (let k = 0; k < poles.length; k += 3) {
    const px = x - poles[k];
    const py = y - poles[k + 1];
    radius = Math.min(radius, Math.sqrt(px * px + py * py) - poles[k + 2]);
  }
  return radius;
}
