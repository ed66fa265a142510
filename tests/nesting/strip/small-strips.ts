import type { Strip } from "../../../packages/nesting/src/strip/strip.js";

const ring = (...corners: number[]): Float64Array => Float64Array.from(corners);

/** Crosses, hooks and blocks that interlock: fourteen items, half turns allowed. */
export const hooks: Strip = {
  height: 24,
  items: [
    {
      polygon: { outer: ring(0, 0, 9, 0, 9, 3, 3, 3, 3, 9, 0, 9), openings: [] },
      demand: 5,
      rotations: [0, 180],
    },
    {
      polygon: {
        outer: ring(3, 0, 6, 0, 6, 3, 9, 3, 9, 6, 6, 6, 6, 9, 3, 9, 3, 6, 0, 6, 0, 3, 3, 3),
        openings: [],
      },
      demand: 4,
      rotations: [0],
    },
    { polygon: { outer: ring(0, 0, 8, 0, 4, 7), openings: [] }, demand: 3, rotations: [0, 90, 180, 270] },
    { polygon: { outer: ring(0, 0, 5, 0, 5, 4, 0, 4), openings: [] }, demand: 2, rotations: [0, 180] },
  ],
};

/** A 20 x 20 square cut into seven pieces, to be put together again. */
export const jigsaw: Strip = {
  height: 20,
  items: [
    { polygon: { outer: ring(0, 0, 8, 0, 8, 6, 0, 11), openings: [] }, demand: 1, rotations: [0] },
    { polygon: { outer: ring(8, 0, 20, 0, 8, 6), openings: [] }, demand: 1, rotations: [0] },
    { polygon: { outer: ring(20, 0, 20, 9, 8, 6), openings: [] }, demand: 1, rotations: [0] },
    { polygon: { outer: ring(0, 11, 8, 6, 10, 15, 0, 20), openings: [] }, demand: 1, rotations: [0] },
    { polygon: { outer: ring(8, 6, 20, 9, 15, 12, 10, 15), openings: [] }, demand: 1, rotations: [0] },
    { polygon: { outer: ring(0, 20, 10, 15, 12, 20), openings: [] }, demand: 1, rotations: [0] },
    {
      polygon: { outer: ring(10, 15, 15, 12, 20, 9, 20, 20, 12, 20), openings: [] },
      demand: 1,
      rotations: [0],
    },
  ],
};

/** A frame with an opening just large enough for the block, and nothing else would fit beside it. */
export const frameAndBlock: Strip = {
  height: 30,
  items: [
    {
      polygon: { outer: ring(0, 0, 30, 0, 30, 30, 0, 30), openings: [ring(5, 5, 5, 25, 25, 25, 25, 5)] },
      demand: 2,
      rotations: [0],
    },
    { polygon: { outer: ring(0, 0, 20, 0, 20, 20, 0, 20), openings: [] }, demand: 2, rotations: [0] },
  ],
};
