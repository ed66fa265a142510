/**
 * The kernel's one tolerance, mm: points closer than this are the same point, curves closer than this touch.
 *
 * A nanometre. Coarse enough: doubles at 10 m from the origin are 2e-12 mm apart, and an arc of 10 m radius
 * built from its bulge is good to about 1e-11 mm, so noise stays five decimals below. Fine enough: the best
 * flat cutting holds 0.01 mm, four decimals above, and files are written with four to nine decimals.
 * Everything else in the kernel is either this number or a stated multiple of it.
 */
export const TOLERANCE = 1e-6;
