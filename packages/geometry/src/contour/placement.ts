/**
 * Where something drawn in its own frame lies in another.
 *
 * A point p goes to R(rotation) * M(p) + (x, y), where M mirrors x -> -x when `mirrored` is set and R turns
 * counter-clockwise by `rotation` degrees. Lengths are millimetres.
 */
export interface Placement {
  readonly x: number;
  readonly y: number;
  readonly rotation: number;
  readonly mirrored: boolean;
}
