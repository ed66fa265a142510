import { cosSin, type Extent, extentOf, type Ring, reversedRing, type Turn } from "../nofit/polygon.js";
import type { PackingShape } from "../shape.js";
import { piecesByStretch, type Screened } from "./lines.js";
import { crossingsSplit, STRIDE, type Trapezoids, trapezoids } from "./trapezoids.js";

/** A packing shape turned and decomposed, ready to look for a place. */
export interface Oriented {
  /** Against other plates and keep-outs. */
  readonly body: Screened;
  /** Against the sheet's edge. */
  readonly rim: Screened;
  /** Where upright lines begin or cease to meet the body: x of its ends, notches and openings. */
  readonly landmarks: readonly number[];
  /** Centre of the body's box. */
  readonly middle: { readonly x: number; readonly y: number };
}

/** The rings of a shape with a corner at every crossing; done once, because turning keeps corners. */
export interface SplitShape {
  readonly body: readonly Ring[];
  readonly rim: readonly Ring[];
}

export function splitShape(shape: PackingShape): SplitShape {
  const body = crossingsSplit([shape.body.outer, ...shape.body.openings]);
  return { body, rim: shape.rim === shape.body.outer ? body : crossingsSplit([shape.rim]) };
}

export function oriented(shape: SplitShape, turn: Turn): Oriented {
  const rings = turnedRings(shape.body, turn);
  const body = mover(rings);
  const rim = shape.rim === shape.body ? body : mover(turnedRings(shape.rim, turn));
  const { minX, maxX, minY, maxY } = body.box;
  return {
    body,
    rim,
    landmarks: landmarks(rings),
    middle: { x: (minX + maxX) / 2, y: (minY + maxY) / 2 },
  };
}

/** A decomposed set moved by (x, y). */
export function moved(pieces: Trapezoids, x: number, y: number): Trapezoids {
  const result = Float64Array.from(pieces);
  for (let t = 0; t < result.length; t += STRIDE) {
    result[t] = result[t] + x;
    result[t + 1] = result[t + 1] + x;
    result[t + 2] = result[t + 2] + y;
    result[t + 4] = result[t + 4] + y;
  }
  return result;
}

export function movedExtent(box: Extent, x: number, y: number): Extent {
  return { minX: box.minX + x, minY: box.minY + y, maxX: box.maxX + x, maxY: box.maxY + y };
}

export function turnedRings(rings: readonly Ring[], turn: Turn): Ring[] {
  const [cos, sin] = cosSin(turn.rotation);
  const flip = turn.mirrored ? -1 : 1;
  return rings.map((ring) => {
    const result = new Float64Array(ring.length);
    for (let i = 0; i < ring.length; i += 2) {
      const x = flip * ring[i];
      const y = ring[i + 1];
      result[i] = cos * x - sin * y;
      result[i + 1] = sin * x + cos * y;
    }
    return turn.mirrored ? reversedRing(result) : result;
  });
}

/** x of the outer ring's ends and of up to a dozen places where any ring turns back. */
export function landmarks(rings: readonly Ring[]): number[] {
  const found: number[] = [];
  for (const ring of rings) {
    const box = extentOf(ring);
    found.push(box.minX, box.maxX);
  }
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const before = ring[(i + ring.length - 2) % ring.length];
      const x = ring[i];
      const after = ring[(i + 2) % ring.length];
      if ((before < x && after <= x) || (before > x && after >= x)) found.push(x);
    }
  }
  const apart: number[] = [];
  for (const x of found) {
    if (apart.length === MOST_LANDMARKS) break;
    if (apart.every((other) => Math.abs(other - x) > 1e-6)) apart.push(x);
  }
  return apart;
}

const MOST_LANDMARKS = 12;

function mover(rings: readonly Ring[]): Screened {
  const pieces = trapezoids(rings);
  const box = extentOf(rings[0]);
  return { pieces, box, byStretch: piecesByStretch(pieces, box), tallestAt: tallestAt(pieces) };
}

/** x of the middle of the piece that is tallest in its middle. */
function tallestAt(pieces: Trapezoids): number {
  let found = 0;
  let most = -1;
  for (let at = 0; at < pieces.length; at += STRIDE) {
    const half = (pieces[at + 1] - pieces[at]) / 2;
    const start = pieces[at + 4] - pieces[at + 2];
    const height = start + half * (pieces[at + 5] - pieces[at + 3]);
    if (height <= most) continue;
    most = height;
    found = pieces[at] + half;
  }
  return found;
}
