import type { Point } from "@keelcut/geometry";

/**
 * Radius of the smallest disc around the points (E. Welzl, 1991, without the shuffling; from memory). Points may be in
 * any order; a contour's few dozen corners take no time.
 */
export function enclosingRadius(points: readonly Point[]): number {
  let disc: Disc = { x: 0, y: 0, radius: -1 };
  points.forEach((p, i) => {
    if (holds(disc, p)) return;
    disc = { ...p, radius: 0 };
    points.slice(0, i).forEach((q, j) => {
      if (holds(disc, q)) return;
      disc = across(p, q);
      for (const r of points.slice(0, j)) if (!holds(disc, r)) disc = through(p, q, r);
    });
  });
  return Math.max(0, disc.radius);
}

interface Disc extends Point {
  readonly radius: number;
}

function holds({ x, y, radius }: Disc, point: Point): boolean {
  return radius >= 0 && Math.hypot(point.x - x, point.y - y) <= radius * (1 + 1e-12) + 1e-12;
}

function across(a: Point, b: Point): Disc {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, radius: Math.hypot(b.x - a.x, b.y - a.y) / 2 };
}

/** The disc with three points on its rim; across the farthest two when they lie on a line. */
function through(a: Point, b: Point, c: Point): Disc {
  const [bx, by, cx, cy] = [b.x - a.x, b.y - a.y, c.x - a.x, c.y - a.y];
  const doubled = 2 * (bx * cy - by * cx);
  if (Math.abs(doubled) < 1e-12 * (Math.hypot(bx, by) * Math.hypot(cx, cy) + 1e-300)) {
    return [across(a, b), across(b, c), across(a, c)].reduce((most, disc) =>
      disc.radius > most.radius ? disc : most,
    );
  }
  const [bb, cc] = [bx * bx + by * by, cx * cx + cy * cy];
  const x = (cy * bb - by * cc) / doubled;
  const y = (bx * cc - cx * bb) / doubled;
  return { x: a.x + x, y: a.y + y, radius: Math.hypot(x, y) };
}
