import { randomIndex } from "../random.js";
import type { Engine } from "../search/engine.js";
import type { Instance } from "../search/instance.js";
import type { MoveEffort } from "../search/move.js";
import { findNeighbours } from "../search/neighbours.js";
import { clearOverlaps, closeRow, noteOverlap, openRow, weightedOverlap } from "../search/pair-book.js";
import { fittingShape, insert, rebuild, remove, type Search } from "../search/search.js";
import { boxesMeet, outlinesMeet, polesMeet } from "./hit.js";
import { overlapProxy } from "./proxy.js";
import { emptyLaid, type Laid, lay } from "./silhouette.js";

/**
 * Moving one item by comparing outlines, at any angle or in set turns.
 *
 * Samples over the box and around the item at random angles; the best three are improved by going along an axis, a
 * diagonal or the angle, one at a time, with a step that grows by a tenth when it helps and shrinks when it does
 * not (coordinate descent). What collides costs weight * scale * proxy (`proxy.ts`), what does not costs nothing, so a place
 * without cost is free. All sure hits are added up before the dear edge tests, and the sum stops at the best cost known.
 *
 * Cost: some hundred evaluations of some microseconds.
 */
export function newOutlineEngine(instance: Instance): Engine {
  const { silhouettes, items } = instance;
  const outlines: Outlines = {
    laid: Array.from({ length: items }, () => emptyLaid(silhouettes)),
    moving: emptyLaid(silhouettes),
    unsure: new Int32Array(items),
    best: Array.from({ length: KEPT }, () => ({ x: 0, y: 0, shape: 0, angle: 0, cost: Infinity })),
    placedX: 0,
    placedY: 0,
  };
  return {
    moveItem: (search, item, effort) => moveItem(search, outlines, item, effort),
    noteOverlaps: (search, item) => noteOverlaps(search, outlines, item),
    keepInBox: (search, item) => keepInBox(search, outlines, item),
    turnAtRandom,
    rightEnd: (_, item) => outlines.laid[item].maxX,
    // Whether outlines meet is found out by samples and bounds, so there is no touching place to press to.
    press: () => [],
    start: (search) => start(search, outlines),
  };
}

/** Kept places: x, y, shape, angle and cost. */
interface Place {
  x: number;
  y: number;
  shape: number;
  angle: number;
  cost: number;
}

const KEPT = 3;

/** Scratch and laid outlines of one search. */
interface Outlines {
  readonly laid: Laid[];
  readonly moving: Laid;
  readonly unsure: Int32Array;
  readonly best: Place[];
  /** Where `costAt` laid the last candidate after moving it into its box. */
  placedX: number;
  placedY: number;
}

function moveItem(search: Search, outlines: Outlines, item: number, effort: MoveEffort): boolean {
  const { book, instance, random } = search;
  search.steps++;
  const present = weightedOverlap(book, instance, item);
  openRow(book, item);
  remove(search, item);
  const { best } = outlines;
  for (const place of best) place.cost = Infinity;
  offer(search, outlines, item, search.shape[item], search.angle[item], search.x[item], search.y[item]);
  const kind = instance.kindOfItem[item];
  const spread = 0.7 * instance.meanSize;
  const { minX, minY, maxX, maxY } = search.boxes;
  const box = search.box[item];
  const samples = 2 * (effort.uniform + effort.near) + effort.corners;
  for (let k = 0; k < samples && best[0].cost > 0; k++) {
    const near = k % 3 === 0;
    const shape = instance.firstShape[kind] + randomIndex(random, instance.shapeCount[kind]);
    const angle = instance.anyAngle[kind]
      ? near
        ? search.angle[item] + 0.4 * (random() - 0.5)
        : 2 * Math.PI * random()
      : 0;
    const x = near
      ? search.x[item] + spread * (2 * random() - 1)
      : minX[box] + random() * (maxX[box] - minX[box]);
    const y = near
      ? search.y[item] + spread * (2 * random() - 1)
      : minY[box] + random() * (maxY[box] - minY[box]);
    offer(search, outlines, item, shape, angle, x, y);
  }
  for (const place of best) {
    if (best[0].cost > 0 && place.cost < Infinity) goDown(search, outlines, item, place);
  }
  best.sort((a, b) => a.cost - b.cost);
  const moved = best[0].cost < present * (1 - 1e-9);
  if (moved) {
    search.x[item] = best[0].x;
    search.y[item] = best[0].y;
    search.shape[item] = best[0].shape;
    search.angle[item] = best[0].angle;
    clearOverlaps(book, item);
    noteOverlaps(search, outlines, item);
  }
  layItem(search, outlines, item);
  insert(search, item);
  closeRow(book, item);
  return moved;
}

/** Lays a candidate out, in its box, and keeps it if it is among the best. */
function offer(
  search: Search,
  outlines: Outlines,
  item: number,
  shape: number,
  angle: number,
  x: number,
  y: number,
): void {
  const { best } = outlines;
  const last = best[KEPT - 1];
  const cost = costAt(search, outlines, item, shape, angle, x, y, last.cost);
  if (cost >= last.cost) return;
  last.x = outlines.placedX;
  last.y = outlines.placedY;
  last.shape = shape;
  last.angle = angle;
  last.cost = cost;
  for (let k = KEPT - 1; k > 0 && best[k].cost < best[k - 1].cost; k--) {
    const kept = best[k];
    best[k] = best[k - 1];
    best[k - 1] = kept;
  }
}

/** Cost of a place, or some number >= limit; the place is first moved into the box, and Infinity if it is too large. */
function costAt(
  search: Search,
  outlines: Outlines,
  item: number,
  shape: number,
  angle: number,
  x: number,
  y: number,
  limit: number,
): number {
  search.evaluations++;
  const { instance, boxes, book } = search;
  const { moving, laid, unsure } = outlines;
  const silhouette = instance.silhouettes[shape];
  const box = search.box[item];
  lay(silhouette, angle, x, y, moving);
  const slack = search.tolerance;
  if (moving.maxX - moving.minX > boxes.maxX[box] - boxes.minX[box] + slack) return Infinity;
  if (moving.maxY - moving.minY > boxes.maxY[box] - boxes.minY[box] + slack) return Infinity;
  const placedX = x + intoRange(moving.minX, moving.maxX, boxes.minX[box], boxes.maxX[box]);
  const placedY = y + intoRange(moving.minY, moving.maxY, boxes.minY[box], boxes.maxY[box]);
  outlines.placedX = placedX;
  outlines.placedY = placedY;
  if (placedX !== x || placedY !== y) lay(silhouette, angle, placedX, placedY, moving);
  const { items, count } = findNeighbours(search, shape, placedX, placedY);
  const row = instance.kindOfItem[item] * instance.kinds;
  let total = 0;
  let open = 0;
  for (let k = 0; k < count; k++) {
    const j = items[k];
    const other = laid[j];
    if (!boxesMeet(moving, other)) continue;
    if (polesMeet(moving, other)) {
      total += overlapProxy(moving, other) * book.rowWeight[j] * instance.scale[row + instance.kindOfItem[j]];
      if (total >= limit) return total;
    } else {
      unsure[open++] = j;
    }
  }
  for (let k = 0; k < open; k++) {
    const j = unsure[k];
    const other = laid[j];
    if (!outlinesMeet(moving, other)) continue;
    total += overlapProxy(moving, other) * book.rowWeight[j] * instance.scale[row + instance.kindOfItem[j]];
    if (total >= limit) return total;
  }
  return total;
}

function goDown(search: Search, outlines: Outlines, item: number, place: Place): void {
  const { random, instance } = search;
  const turns = instance.anyAngle[instance.kindOfItem[item]];
  const diameter = instance.silhouettes[place.shape].diameter;
  let step = 0.02 * diameter;
  let swing = 0.05;
  while (step > 2e-5 * diameter && place.cost > 0) {
    const way = randomIndex(random, turns ? 5 : 4);
    const dx = way === 0 || way >= 2 ? 1 : 0;
    const dy = way === 1 || way === 2 ? 1 : way === 3 ? -1 : 0;
    let helped = false;
    for (let sign = 1; sign >= -1 && !helped; sign -= 2) {
      helped =
        way === 4
          ? improves(search, outlines, item, place, place.angle + sign * swing, place.x, place.y)
          : improves(
              search,
              outlines,
              item,
              place,
              place.angle,
              place.x + sign * dx * step,
              place.y + sign * dy * step,
            );
    }
    const factor = helped ? 1.1 : 0.5;
    step *= way === 4 && !helped ? 0.8 : factor;
    if (way === 4) swing *= factor;
  }
}

function improves(
  search: Search,
  outlines: Outlines,
  item: number,
  place: Place,
  angle: number,
  x: number,
  y: number,
): boolean {
  const cost = costAt(search, outlines, item, place.shape, angle, x, y, place.cost);
  if (cost >= place.cost) return false;
  place.x = outlines.placedX;
  place.y = outlines.placedY;
  place.angle = angle;
  place.cost = cost;
  return true;
}

function layItem(search: Search, outlines: Outlines, item: number): void {
  const { instance, shape, angle, x, y } = search;
  lay(instance.silhouettes[shape[item]], angle[item], x[item], y[item], outlines.laid[item]);
}

function noteOverlaps(search: Search, outlines: Outlines, item: number): void {
  layItem(search, outlines, item);
  const { laid } = outlines;
  const own = laid[item];
  const { items, count } = findNeighbours(search, search.shape[item], search.x[item], search.y[item]);
  for (let k = 0; k < count; k++) {
    const other = laid[items[k]];
    if (!boxesMeet(own, other)) continue;
    if (polesMeet(own, other) || outlinesMeet(own, other)) {
      noteOverlap(search.book, item, items[k], overlapProxy(own, other));
    }
  }
}

function keepInBox(search: Search, outlines: Outlines, item: number): void {
  layItem(search, outlines, item);
  const { boxes, box } = search;
  const own = outlines.laid[item];
  if (!isWithin(search, own, box[item])) turnToFit(search, outlines, item);
  const b = box[item];
  search.x[item] += intoRange(own.minX, own.maxX, boxes.minX[b], boxes.maxX[b]);
  search.y[item] += intoRange(own.minY, own.maxY, boxes.minY[b], boxes.maxY[b]);
  layItem(search, outlines, item);
}

/** Whether a laid outline is small enough for a box. */
function isWithin({ boxes, tolerance }: Search, { minX, minY, maxX, maxY }: Laid, b: number): boolean {
  return (
    maxX - minX <= boxes.maxX[b] - boxes.minX[b] + tolerance &&
    maxY - minY <= boxes.maxY[b] - boxes.minY[b] + tolerance
  );
}

/** Turns an item that is too long for its box: what sticks out costs nothing, so the search would leave it there. */
function turnToFit(search: Search, outlines: Outlines, item: number): void {
  const { instance, random, shape, angle, box } = search;
  const kind = instance.kindOfItem[item];
  for (let k = 0; k < TURNS_TRIED && instance.anyAngle[kind]; k++) {
    shape[item] = instance.firstShape[kind] + randomIndex(random, instance.shapeCount[kind]);
    angle[item] = 2 * Math.PI * random();
    layItem(search, outlines, item);
    if (isWithin(search, outlines.laid[item], box[item])) return;
  }
  angle[item] = 0;
  shape[item] = fittingShape(search, item);
  layItem(search, outlines, item);
}

const TURNS_TRIED = 8;

/** The least shift that brings an interval into a range; one that is too long begins where the range does. */
function intoRange(low: number, high: number, rangeLow: number, rangeHigh: number): number {
  if (high - low > rangeHigh - rangeLow) return rangeLow - low;
  return low < rangeLow ? rangeLow - low : high > rangeHigh ? rangeHigh - high : 0;
}

function turnAtRandom({ instance, random, shape, angle }: Search, item: number): void {
  const kind = instance.kindOfItem[item];
  shape[item] = instance.firstShape[kind] + randomIndex(random, instance.shapeCount[kind]);
  // A turn may not fit the height at every angle; the present one and its opposite do.
  if (instance.anyAngle[kind] && random() < 0.5) angle[item] += Math.PI;
}

/** Columns of items by their boxes at angle 0: a valid layout to begin with, and no more. */
function start(search: Search, outlines: Outlines): void {
  const { instance, boxes } = search;
  const { laid } = outlines;
  const gap = 1e-6 * instance.meanSize;
  let x = boxes.minX[0];
  let y = boxes.minY[0];
  let width = 0;
  for (let i = instance.movable; i < instance.items; i++) layItem(search, outlines, i);
  for (let i = 0; i < instance.movable; i++) {
    search.angle[i] = 0;
    search.x[i] = 0;
    search.y[i] = 0;
    layItem(search, outlines, i);
    const own = laid[i];
    if (y + own.maxY - own.minY > boxes.maxY[0]) {
      x += width + gap;
      y = boxes.minY[0];
      width = 0;
    }
    search.x[i] = x - own.minX;
    search.y[i] = y - own.minY;
    search.present[i] = 1;
    y += own.maxY - own.minY + gap;
    width = Math.max(width, own.maxX - own.minX);
  }
  rebuild(search);
}
