import type { Polygon, Ring } from "./polygon.js";

/**
 * The integer grid on which no-fit regions are computed.
 *
 * The scale is a power of two, so coordinates that are already round numbers stay exact, and it is chosen so that the
 * longest side of any shape spans at most 2^34 steps: sums, differences and doubled middles stay far below 2^52, where
 * differences are exact and so are the predicates of `exact.ts`. For a 2 m plate a step is a ten-millionth of a millimetre.
 */
export interface Grid {
  /** Steps per unit of length. */
  readonly scale: number;
  /** The length by which each shape is shrunk (see `shrunk`), in steps. */
  readonly hair: number;
}

/**
 * Shapes are shrunk by this many steps all round, so that a block as wide as a slot leaves a channel the search can use
 * instead of an infinitely thin line that a union of closed regions swallows. Must exceed the rounding of the
 * arrangement (about one step an edge) several times over.
 */
const HAIR = 6;

/** The grid for shapes of at most this extent. RangeError unless it is finite and positive. */
export function gridFor(largestExtent: number): Grid {
  if (!(largestExtent > 0) || !Number.isFinite(largestExtent)) {
    throw new RangeError(`Shapes need a finite, positive extent, got ${largestExtent}`);
  }
  return { scale: 2 ** (34 - Math.ceil(Math.log2(largestExtent))), hair: HAIR };
}

/** A polygon rounded to the grid and shrunk by a hair; openings that this closes are dropped. */
export function onGrid(polygon: Polygon, grid: Grid): Polygon {
  const outer = shrunk(rounded(polygon.outer, grid.scale), grid.hair);
  const openings = polygon.openings
    .map((opening) => rounded(opening, grid.scale))
    .filter((opening) => opening.length >= 6)
    .map((opening) => shrunk(opening, grid.hair));
  return { outer, openings };
}

/** Integer corners, without repeated corners, straight corners and spikes. */
function rounded(ring: Ring, scale: number): Ring {
  const corners: number[] = [];
  for (let i = 0; i < ring.length; i += 2) {
    corners.push(Math.round(ring[i] * scale), Math.round(ring[i + 1] * scale));
  }
  let changed = true;
  while (changed && corners.length >= 6) {
    changed = false;
    for (let i = 0; i < corners.length && corners.length >= 6; ) {
      const n = corners.length;
      const p = (i + n - 2) % n;
      const q = (i + 2) % n;
      const ux = corners[i] - corners[p];
      const uy = corners[i + 1] - corners[p + 1];
      const vx = corners[q] - corners[i];
      const vy = corners[q + 1] - corners[i + 1];
      // A corner less than four steps off the chord of its neighbours carries no shape.
      const off = Math.abs(ux * vy - uy * vx) / Math.max(1, Math.hypot(ux + vx, uy + vy));
      if (Math.hypot(ux, uy) < 32 || (off < 4 && Math.hypot(vx, vy) >= 32)) {
        corners.splice(i, 2);
        changed = true;
      } else {
        i += 2;
      }
    }
  }
  return Float64Array.from(corners);
}

/** Every edge moved `hair` to the left, into the material, by moving corners along their mitres. */
function shrunk(ring: Ring, hair: number): Ring {
  const n = ring.length;
  const result = new Float64Array(n);
  for (let i = 0; i < n; i += 2) {
    const p = (i + n - 2) % n;
    const q = (i + 2) % n;
    const inLength = Math.hypot(ring[i] - ring[p], ring[i + 1] - ring[p + 1]);
    const outLength = Math.hypot(ring[q] - ring[i], ring[q + 1] - ring[i + 1]);
    const ax = -(ring[i + 1] - ring[p + 1]) / inLength;
    const ay = (ring[i] - ring[p]) / inLength;
    const bx = -(ring[q + 1] - ring[i + 1]) / outLength;
    const by = (ring[q] - ring[i]) / outLength;
    // The tip of a needle sharper than 12 degrees would move too far; ten hairs are the limit.
    const stretch = hair / Math.max(0.02, 1 + ax * bx + ay * by);
    result[i] = Math.round(ring[i] + stretch * (ax + bx));
    result[i + 1] = Math.round(ring[i + 1] + stretch * (ay + by));
  }
  return result;
}
