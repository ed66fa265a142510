import { flatten, type Point, type Region, regionBounds } from "@keelcut/geometry";

/** A place for a label: well inside the material, `radius` mm away from its nearest edge. */
export interface LabelPoint extends Point {
  readonly radius: number;
}

/**
 * The point of a region's material farthest from every edge, to within two percent of the region's size:
 * cells of a grid are split while their middle's distance plus half their diagonal could still win.
 * Method: the "pole of inaccessibility" by quadtree branch and bound (common in map lettering).
 * A label there never lands in an opening, where another plate may lie.
 */
export function labelPoint(region: Region): LabelPoint {
  const box = regionBounds(region);
  const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  const rings = [region.outer, ...region.openings].map((contour) => flatten(contour, size / 500, "on"));
  const measure = (x: number, y: number): number => depthInside(x, y, rings);

  const cell = Math.min(box.maxX - box.minX, box.maxY - box.minY) || size;
  let best: LabelPoint = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2, radius: -Infinity };
  let open: { x: number; y: number; half: number; depth: number }[] = [];
  const consider = (x: number, y: number, half: number): void => {
    const depth = measure(x, y);
    if (depth > best.radius) best = { x, y, radius: depth };
    open.push({ x, y, half, depth });
  };
  for (let x = box.minX; x < box.maxX; x += cell) {
    for (let y = box.minY; y < box.maxY; y += cell) consider(x + cell / 2, y + cell / 2, cell / 2);
  }
  const enough = size / 50;
  while (open.length > 0) {
    const promising = open.filter((c) => c.depth + c.half * Math.SQRT2 > best.radius + enough);
    open = [];
    for (const c of promising) {
      const half = c.half / 2;
      for (const dx of [-half, half]) for (const dy of [-half, half]) consider(c.x + dx, c.y + dy, half);
    }
  }
  return best;
}

/** Distance to the nearest edge, negative outside the material (even-odd). */
function depthInside(x: number, y: number, rings: readonly (readonly Point[])[]): number {
  let inside = false;
  let nearest = Infinity;
  for (const ring of rings) {
    let previous = ring[ring.length - 1];
    for (const p of ring) {
      if (previous !== undefined) {
        const crosses = p.y > y !== previous.y > y;
        if (crosses && x < ((previous.x - p.x) * (y - p.y)) / (previous.y - p.y) + p.x) inside = !inside;
        nearest = Math.min(nearest, distanceToLine(x, y, previous, p));
      }
      previous = p;
    }
  }
  return inside ? nearest : -nearest;
}

function distanceToLine(x: number, y: number, a: Point, b: Point): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const length = dx * dx + dy * dy;
  const t = length === 0 ? 0 : Math.max(0, Math.min(1, ((x - a.x) * dx + (y - a.y) * dy) / length));
  return Math.hypot(x - a.x - t * dx, y - a.y - t * dy);
}
