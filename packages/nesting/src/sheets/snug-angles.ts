import { extentOf, type Ring } from "../nofit/polygon.js";
import { turnedRings } from "./oriented.js";

/**
 * Angles at which a plate lies best within a box that is hardly larger than it, degrees in 0 <= angle < 360; none where
 * the plate is longer or wider than the box at every angle.
 *
 * By how much a plate sticks out of a box is a continuous function of its angle, and the same after half a turn. It is
 * taken at every degree, and its lesser values are refined by golden section search (Kiefer 1953, "Sequential minimax
 * search for a maximum"). A plate that fits within less than a degree, such as a bar along the diagonal, is found that
 * way. Cost: some 30 turns of the ring for each of a handful of lesser values.
 *
 * @param rings - Rim of the plate at 0 degrees.
 * @param box - Width and height of the box, mm, in the frame of the rings.
 */
export function snugAngles(
  rings: readonly Ring[],
  mirrored: boolean,
  box: { readonly width: number; readonly height: number },
): number[] {
  const excess = (rotation: number): number => {
    const extents = turnedRings(rings, { rotation, mirrored }).map(extentOf);
    const width = Math.max(...extents.map((e) => e.maxX)) - Math.min(...extents.map((e) => e.minX));
    const height = Math.max(...extents.map((e) => e.maxY)) - Math.min(...extents.map((e) => e.minY));
    return Math.max(width - box.width, height - box.height);
  };
  const atDegree = Array.from({ length: HALF_TURN }, (_, degree) => excess(degree));
  const at = (degree: number): number =>
    atDegree[(degree + HALF_TURN) % HALF_TURN] ?? Number.POSITIVE_INFINITY;
  return atDegree.flatMap((value, degree) => {
    if (value > at(degree - 1) || value > at(degree + 1)) return [];
    const least = goldenSection(excess, degree - 1, degree + 1);
    if (excess(least) > 0) return [];
    const upright = (least + 360) % 360;
    return [upright, (upright + HALF_TURN) % 360];
  });
}

const HALF_TURN = 180;
/** Degrees; on a plate of a metre the corners move by less than a hundredth of a micrometre. */
const PRECISE = 1e-7;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** The place of the least value between two places that have one lesser value between them. */
function goldenSection(value: (place: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let [atLeft, atRight] = [value(left), value(right)];
  while (high - low > PRECISE) {
    if (atLeft <= atRight) {
      high = right;
      [right, atRight] = [left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = value(left);
    } else {
      low = left;
      [left, atLeft] = [right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = value(right);
    }
  }
  return (low + high) / 2;
}
