import { randomIndex } from "../random.js";
import { construct, largestFirst } from "./construct.js";
import type { Engine } from "./engine.js";
import { moveItem } from "./move.js";
import { noteOverlaps } from "./overlap.js";
import { press } from "./pressing.js";
import { fitsBox, fittingShape, highX, highY, lowX, lowY } from "./search.js";

/** Overlaps are penetration depths in no-fit regions; turns are the shapes of a kind. */
export const nofitEngine: Engine = {
  moveItem,
  noteOverlaps,
  keepInBox: (search, item) => {
    const { x, y, shape, box } = search;
    if (!fitsBox(search, shape[item], box[item])) shape[item] = fittingShape(search, item);
    const s = shape[item];
    x[item] = Math.min(highX(search, s, box[item]), Math.max(lowX(search, s, box[item]), x[item]));
    y[item] = Math.min(highY(search, s, box[item]), Math.max(lowY(search, s, box[item]), y[item]));
  },
  turnAtRandom: ({ instance, random, shape }, item) => {
    const kind = instance.kindOfItem[item];
    shape[item] = instance.firstShape[kind] + randomIndex(random, instance.shapeCount[kind]);
  },
  rightEnd: ({ instance, x, shape }, item) => x[item] + instance.halfWidth[shape[item]],
  press,
  start: (search) => {
    construct(search, largestFirst(search));
  },
};
