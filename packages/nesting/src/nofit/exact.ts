/**
 * Exact signs of small determinants in double precision.
 *
 * Coordinates are integers below 2^52 (the grid), so differences are exact. A product of two differences can need twice
 * the bits of a double; where rounding could decide the sign, both products are split into a rounded value and its exact rest
 * (Dekker 1971, "A floating-point technique for extending the available precision") and compared part by part.
 * Rounding is monotone, so rounded values that differ already decide. Cost: four operations almost always, about forty
 * in the doubtful cases.
 */

/** Sign of a * b - c * d for integers below 2^53: positive, negative or exactly 0. */
export function productDifference(a: number, b: number, c: number, d: number): number {
  const ab = a * b;
  const cd = c * d;
  if (ab !== cd) return ab - cd;
  return roundingRest(a, b, ab) - roundingRest(c, d, cd);
}

/** Which side of the line from (ax, ay) to (bx, by) the point (px, py) is on: positive left, negative right, 0 on it. */
export function side(ax: number, ay: number, bx: number, by: number, px: number, py: number): number {
  return productDifference(bx - ax, py - ay, by - ay, px - ax);
}

/** The same as `side` with a value good to the last bits, where `side` only promises the sign: for crossings of near-parallel lines. */
export function preciseSide(ax: number, ay: number, bx: number, by: number, px: number, py: number): number {
  const [ux, uy, vx, vy] = [bx - ax, by - ay, px - ax, py - ay];
  const left = ux * vy;
  const right = uy * vx;
  return left - right + (roundingRest(ux, vy, left) - roundingRest(uy, vx, right));
}

/** a * b minus its rounded value `product`, exactly. */
function roundingRest(a: number, b: number, product: number): number {
  const ca = SPLITTER * a;
  const aHigh = ca - (ca - a);
  const aLow = a - aHigh;
  const cb = SPLITTER * b;
  const bHigh = cb - (cb - b);
  const bLow = b - bHigh;
  return aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow);
}

/** 2^27 + 1: cuts a 53-bit mantissa in two halves. */
const SPLITTER = 134217729;
