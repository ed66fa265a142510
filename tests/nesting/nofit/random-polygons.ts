import type { Polygon, Ring } from "../../../packages/nesting/src/nofit/polygon.js";

/** A small seeded generator (mulberry32), so that every failure can be named by a number. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Random corners untangled by reversing runs between crossing edges until the polygon is simple. */
export function untangledPolygon(
  random: () => number,
  corners: number,
  lattice: number | undefined,
): Polygon {
  const spread = 40;
  const x: number[] = [];
  const y: number[] = [];
  const seen = new Set<string>();
  while (x.length < corners) {
    const px =
      lattice === undefined ? random() * spread : Math.floor(random() * (lattice + 1)) * (spread / lattice);
    const py =
      lattice === undefined ? random() * spread : Math.floor(random() * (lattice + 1)) * (spread / lattice);
    const key = `${px},${py}`;
    if (seen.has(key)) continue;
    seen.add(key);
    x.push(px);
    y.push(py);
  }
  for (let sweep = 0; sweep < 400; sweep++) {
    let crossed = false;
    for (let i = 0; i < corners && !crossed; i++) {
      for (let j = i + 1; j < corners && !crossed; j++) {
        if (!touch(x, y, i, j, corners)) continue;
        for (let a = i + 1, b = j; a < b; a++, b--) {
          [x[a], x[b]] = [at(x, b), at(x, a)];
          [y[a], y[b]] = [at(y, b), at(y, a)];
        }
        crossed = true;
      }
    }
    if (!crossed) return { outer: ringOf(x, y), openings: [] };
  }
  return untangledPolygon(random, corners, lattice);
}

/** A connected set of unit cells, 5 mm each, with its outline and the openings it encloses: full of exact fits. */
export function cellPolygon(
  random: () => number,
  size: number,
  cells: number,
): { polygon: Polygon; cells: Set<string> } {
  const chosen = new Set<string>([`${size >> 1},${size >> 1}`]);
  while (chosen.size < cells) {
    const all = [...chosen];
    const [cx, cy] = numbers(all[Math.floor(random() * all.length)] as string);
    const step = [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ][Math.floor(random() * 4)] as [number, number];
    const nx = cx + step[0];
    const ny = cy + step[1];
    if (nx >= 0 && ny >= 0 && nx < size && ny < size) chosen.add(`${nx},${ny}`);
  }
  // Cells that touch only at a corner would make the outline touch itself.
  for (const key of [...chosen]) {
    const [cx, cy] = numbers(key);
    for (const side of [-1, 1]) {
      if (!chosen.has(`${cx + side},${cy + 1}`)) continue;
      if (chosen.has(`${cx + side},${cy}`) || chosen.has(`${cx},${cy + 1}`)) continue;
      chosen.add(`${cx},${cy + 1}`);
      return cellPolygon(random, size, cells);
    }
  }
  return { polygon: outlineOfCells(chosen, size), cells: chosen };
}

function outlineOfCells(cells: Set<string>, size: number): Polygon {
  const next = new Map<string, string>();
  const edge = (ax: number, ay: number, bx: number, by: number): void => {
    next.set(`${ax},${ay}`, `${bx},${by}`);
  };
  for (let cx = 0; cx < size; cx++) {
    for (let cy = 0; cy < size; cy++) {
      if (!cells.has(`${cx},${cy}`)) continue;
      if (!cells.has(`${cx},${cy - 1}`)) edge(cx, cy, cx + 1, cy);
      if (!cells.has(`${cx + 1},${cy}`)) edge(cx + 1, cy, cx + 1, cy + 1);
      if (!cells.has(`${cx},${cy + 1}`)) edge(cx + 1, cy + 1, cx, cy + 1);
      if (!cells.has(`${cx - 1},${cy}`)) edge(cx, cy + 1, cx, cy);
    }
  }
  const rings: Ring[] = [];
  while (next.size > 0) {
    const start = next.keys().next().value as string;
    const corners: number[] = [];
    for (let key: string | undefined = start; key !== undefined; ) {
      const [cx, cy] = numbers(key);
      corners.push(cx * 5, cy * 5);
      const following: string | undefined = next.get(key);
      next.delete(key);
      key = following;
    }
    rings.push(Float64Array.from(corners.slice(0, -2)));
  }
  const outer = rings.find((ring) => areaOf(ring) > 0) as Ring;
  return { outer, openings: rings.filter((ring) => ring !== outer) };
}

/** Whether the interiors of `a` and of `b` moved by (px, py) meet, for positions in which nothing merely touches. */
export function overlapByBrute(a: Polygon, b: Polygon, px: number, py: number): boolean {
  const moved: Polygon = {
    outer: shifted(b.outer, px, py),
    openings: b.openings.map((ring) => shifted(ring, px, py)),
  };
  const ringsA = [a.outer, ...a.openings];
  const ringsB = [moved.outer, ...moved.openings];
  for (const ringA of ringsA) for (const ringB of ringsB) if (ringsCross(ringA, ringB)) return true;
  return (
    covers(a, moved.outer[0] as number, moved.outer[1] as number) ||
    covers(moved, a.outer[0] as number, a.outer[1] as number)
  );
}

/** Even-odd test over all rings. */
export function covers(polygon: Polygon, px: number, py: number): boolean {
  let inside = false;
  for (const ring of [polygon.outer, ...polygon.openings]) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [ax, ay, bx, by] = [ring[j], ring[j + 1], ring[i], ring[i + 1]] as [
        number,
        number,
        number,
        number,
      ];
      if (ay > py !== by > py && px < ax + ((py - ay) * (bx - ax)) / (by - ay)) inside = !inside;
    }
  }
  return inside;
}

/** Distance from a point to the nearest edge of any ring. */
export function distanceToRings(rings: readonly Ring[], px: number, py: number): number {
  let least = Infinity;
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [ax, ay, bx, by] = [ring[j], ring[j + 1], ring[i], ring[i + 1]] as [
        number,
        number,
        number,
        number,
      ];
      const dx = bx - ax;
      const dy = by - ay;
      const t = Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy)));
      least = Math.min(least, Math.hypot(px - ax - t * dx, py - ay - t * dy));
    }
  }
  return least;
}

function ringsCross(a: Ring, b: Ring): boolean {
  for (let i = 0, j = a.length - 2; i < a.length; j = i, i += 2) {
    for (let k = 0, l = b.length - 2; k < b.length; l = k, k += 2) {
      const [ax, ay, bx, by] = [a[j], a[j + 1], a[i], a[i + 1]] as [number, number, number, number];
      const [cx, cy, dx, dy] = [b[l], b[l + 1], b[k], b[k + 1]] as [number, number, number, number];
      const s = (x: number, y: number): number => (bx - ax) * (y - ay) - (by - ay) * (x - ax);
      const t = (x: number, y: number): number => (dx - cx) * (y - cy) - (dy - cy) * (x - cx);
      if (s(cx, cy) > 0 !== s(dx, dy) > 0 && t(ax, ay) > 0 !== t(bx, by) > 0) return true;
    }
  }
  return false;
}

function shifted(ring: Ring, px: number, py: number): Ring {
  return ring.map((value, i) => value + (i % 2 === 0 ? px : py));
}

function ringOf(x: number[], y: number[]): Ring {
  const corners = x.flatMap((value, i) => [value, at(y, i)]);
  const ring = Float64Array.from(corners);
  if (areaOf(ring) > 0) return ring;
  return Float64Array.from(x.flatMap((_, i) => [at(x, x.length - 1 - i), at(y, x.length - 1 - i)]));
}

function areaOf(ring: Ring): number {
  let sum = 0;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    sum += at(ring, j) * at(ring, i + 1) - at(ring, i) * at(ring, j + 1);
  }
  return sum / 2;
}

/** Whether edges i and j meet anywhere but in a corner they share. */
function touch(x: number[], y: number[], i: number, j: number, n: number): boolean {
  const [ax, ay, bx, by] = [at(x, i), at(y, i), at(x, (i + 1) % n), at(y, (i + 1) % n)];
  const [cx, cy, dx, dy] = [at(x, j), at(y, j), at(x, (j + 1) % n), at(y, (j + 1) % n)];
  const s = (px: number, py: number): number => (bx - ax) * (py - ay) - (by - ay) * (px - ax);
  const t = (px: number, py: number): number => (dx - cx) * (py - cy) - (dy - cy) * (px - cx);
  const within = (px: number, py: number, ux: number, uy: number, vx: number, vy: number): boolean =>
    Math.min(ux, vx) <= px && px <= Math.max(ux, vx) && Math.min(uy, vy) <= py && py <= Math.max(uy, vy);
  if (j === i + 1) return s(dx, dy) === 0 && (bx - ax) * (dx - bx) + (by - ay) * (dy - by) < 0;
  if (i === 0 && j === n - 1) return t(bx, by) === 0 && (dx - cx) * (bx - ax) + (dy - cy) * (by - ay) < 0;
  if (s(cx, cy) * s(dx, dy) < 0 && t(ax, ay) * t(bx, by) < 0) return true;
  return (
    (s(cx, cy) === 0 && within(cx, cy, ax, ay, bx, by)) ||
    (s(dx, dy) === 0 && within(dx, dy, ax, ay, bx, by)) ||
    (t(ax, ay) === 0 && within(ax, ay, cx, cy, dx, dy)) ||
    (t(bx, by) === 0 && within(bx, by, cx, cy, dx, dy))
  );
}

function numbers(key: string): [number, number] {
  const [x, y] = key.split(",").map(Number);
  return [x as number, y as number];
}

function at(values: ArrayLike<number>, i: number): number {
  return values[i] as number;
}
