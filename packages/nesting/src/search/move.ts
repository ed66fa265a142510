import { EDGE } from "../nofit/depth-field.js";
import { randomIndex } from "../random.js";
import { findContacts } from "./contacts.js";
import { gatherAround, noteOverlaps, overlapAt, overlapNear } from "./overlap.js";
import { clearOverlaps, closeRow, openRow, weightedOverlap } from "./pair-book.js";
import { copyPlace, type Place } from "./place.js";
import { fitsBox, highX, highY, insert, lowX, lowY, remove, type Search } from "./search.js";

/** How many candidates of each sort a move looks at. */
export interface MoveEffort {
  readonly uniform: number;
  readonly near: number;
  readonly corners: number;
}

export const usualMove: MoveEffort = { uniform: 5, near: 5, corners: 24 };

/**
 * Moving one item: the best place found among samples, refined.
 *
 * Candidates: uniform over the boxes, uniform around where it lies, and corners of the no-fit regions of other items
 * (places where it touches one exactly, and the most useful source: an optimum of a packing problem has such touches
 * everywhere). Each is dropped as soon as it costs more than the second best. The best two are refined: sliding to the
 * boundary points that part it from what it overlaps and to the crossings of the edges there, then a short pattern
 * search (Hooke and Jeeves 1961), then sliding again. The item goes only where its weighted overlap falls; returns whether it
 * moved.
 *
 * Cost: about 70 evaluations, fewer once a free place is found.
 */
export function moveItem(search: Search, item: number, effort: MoveEffort): boolean {
  const { book } = search;
  const { first, second } = search.scratch;
  search.steps++;
  const before = weightedOverlap(book, search.instance, item);
  openRow(book, item);
  remove(search, item);
  first.x = search.x[item];
  first.y = search.y[item];
  first.shape = search.shape[item];
  first.box = search.box[item];
  first.cost = before;
  second.cost = Infinity;
  sample(search, item, effort);
  if (first.cost > 0) {
    refine(search, item, first);
    if (first.cost > 0 && second.cost < Infinity) {
      refine(search, item, second);
      if (second.cost < first.cost) copyPlace(second, first);
    }
  }
  const moved = first.cost < before * (1 - 1e-9);
  if (moved) {
    search.x[item] = first.x;
    search.y[item] = first.y;
    search.shape[item] = first.shape;
    search.box[item] = first.box;
    clearOverlaps(book, item);
    noteOverlaps(search, item);
  }
  insert(search, item);
  closeRow(book, item);
  return moved;
}

function sample(search: Search, item: number, effort: MoveEffort): void {
  const { instance, random, boxes } = search;
  const { first } = search.scratch;
  const kind = instance.kindOfItem[item];
  const firstShape = instance.firstShape[kind];
  const shapeCount = instance.shapeCount[kind];
  const reach = 0.7 * instance.meanSize;
  const hereX = search.x[item];
  const hereY = search.y[item];
  for (let k = 0; k < effort.near && first.cost > 0; k++) {
    const shape = firstShape + randomIndex(random, shapeCount);
    const box = search.box[item];
    if (!fitsBox(search, shape, box)) continue;
    const x = clamp(hereX + (2 * random() - 1) * reach, lowX(search, shape, box), highX(search, shape, box));
    const y = clamp(hereY + (2 * random() - 1) * reach, lowY(search, shape, box), highY(search, shape, box));
    offer(search, item, shape, box, x, y);
  }
  for (let k = 0; k < effort.uniform && first.cost > 0; k++) {
    const shape = firstShape + randomIndex(random, shapeCount);
    const box = randomIndex(random, boxes.count);
    if (!fitsBox(search, shape, box)) continue;
    const x = mix(lowX(search, shape, box), highX(search, shape, box), random());
    const y = mix(lowY(search, shape, box), highY(search, shape, box), random());
    offer(search, item, shape, box, x, y);
  }
  const { entry, fields, shapes } = instance.pairs;
  for (let k = 0; k < effort.corners && first.cost > 0; k++) {
    for (let attempt = 0; attempt < 8; attempt++) {
      const shape = firstShape + randomIndex(random, shapeCount);
      const j = randomIndex(random, instance.items);
      if (j === item || !search.present[j]) continue;
      const box = search.box[j];
      if (!fitsBox(search, shape, box)) continue;
      const e = entry[search.shape[j] * shapes + shape];
      if (e === 0) continue;
      const sign = e > 0 ? 1 : -1;
      const field = sign * e - 1;
      const start = fields.edgeStart[field];
      const corner = EDGE * (start + randomIndex(random, fields.edgeStart[field + 1] - start));
      const x = search.x[j] + sign * fields.edges[corner];
      const y = search.y[j] + sign * fields.edges[corner + 1];
      const slack = search.tolerance;
      if (x < lowX(search, shape, box) - slack || x > highX(search, shape, box) + slack) continue;
      if (y < lowY(search, shape, box) - slack || y > highY(search, shape, box) + slack) continue;
      offer(
        search,
        item,
        shape,
        box,
        clamp(x, lowX(search, shape, box), highX(search, shape, box)),
        clamp(y, lowY(search, shape, box), highY(search, shape, box)),
      );
      break;
    }
  }
}

/** Keeps a candidate if it is among the best two. */
function offer(search: Search, item: number, shape: number, box: number, x: number, y: number): void {
  const { first, second } = search.scratch;
  const cost = overlapAt(search, item, shape, x, y, second.cost);
  if (cost >= second.cost) return;
  const into = cost < first.cost ? first : second;
  if (into === first) copyPlace(first, second);
  into.x = x;
  into.y = y;
  into.shape = shape;
  into.box = box;
  into.cost = cost;
}

function refine(search: Search, item: number, place: Place): void {
  gatherAround(search, place.shape, place.x, place.y);
  const settled = slide(search, item, place);
  if (place.cost === 0) return;
  const before = place.cost;
  patternSearch(search, item, place);
  if (place.cost > 0 && (place.cost < before || !settled)) slide(search, item, place);
}

/** Goes from contact to contact while that lowers the cost, ten times at most; returns whether no contact lowers it any more. */
function slide(search: Search, item: number, place: Place): boolean {
  for (let round = 0; round < 10 && place.cost > 0; round++) {
    const before = place.cost;
    const { contacts } = search.scratch;
    findContacts(search, place.shape, place.x, place.y, contacts);
    const n = contacts.count;
    for (let a = 0; a < n; a++) slideTo(search, item, place, a);
    for (let a = 0; a < n; a++) {
      for (let b = a + 1; b < n; b++) slideToCrossing(search, item, place, a, b);
    }
    if (place.cost >= before) return true;
  }
  return false;
}

/** Tries the boundary point of contact `a`; if it lies outside the box, where its edge meets the box. */
function slideTo(search: Search, item: number, place: Place, a: number): void {
  const { contacts } = search.scratch;
  let x = contacts.x[a];
  let y = contacts.y[a];
  const minX = lowX(search, place.shape, place.box);
  const maxX = highX(search, place.shape, place.box);
  const minY = lowY(search, place.shape, place.box);
  const maxY = highY(search, place.shape, place.box);
  if (x < minX || x > maxX) {
    const limit = x < minX ? minX : maxX;
    if (contacts.edgeX[a] !== 0) y += ((limit - x) * contacts.edgeY[a]) / contacts.edgeX[a];
    x = limit;
  }
  if (y < minY || y > maxY) {
    const limit = y < minY ? minY : maxY;
    if (contacts.edgeY[a] !== 0) x += ((limit - y) * contacts.edgeX[a]) / contacts.edgeY[a];
    y = limit;
  }
  tryPlace(search, item, place, clamp(x, minX, maxX), y);
}

/** Tries the crossing of the edges of two contacts. */
function slideToCrossing(search: Search, item: number, place: Place, a: number, b: number): void {
  const { x, y, edgeX, edgeY } = search.scratch.contacts;
  const denominator = edgeX[a] * edgeY[b] - edgeY[a] * edgeX[b];
  if (Math.abs(denominator) < 1e-12) return;
  const t = ((x[b] - x[a]) * edgeY[b] - (y[b] - y[a]) * edgeX[b]) / denominator;
  const px = x[a] + t * edgeX[a];
  const py = y[a] + t * edgeY[a];
  const { shape, box } = place;
  if (px < lowX(search, shape, box) || px > highX(search, shape, box)) return;
  if (py < lowY(search, shape, box) || py > highY(search, shape, box)) return;
  tryPlace(search, item, place, px, py);
}

/** Axis and diagonal steps from a tenth of the mean size down to three thousandths. */
function patternSearch(search: Search, item: number, place: Place): void {
  const { random, instance } = search;
  const minX = lowX(search, place.shape, place.box);
  const maxX = highX(search, place.shape, place.box);
  const minY = lowY(search, place.shape, place.box);
  const maxY = highY(search, place.shape, place.box);
  let step = 0.1 * instance.meanSize;
  while (step > 0.003 * instance.meanSize && place.cost > 0) {
    const direction = randomIndex(random, 4);
    const dx = direction === 1 ? 0 : direction === 0 ? step : Math.SQRT1_2 * step;
    const dy =
      direction === 0
        ? 0
        : direction === 3
          ? -Math.SQRT1_2 * step
          : direction === 1
            ? step
            : Math.SQRT1_2 * step;
    const x = place.x;
    const y = place.y;
    if (
      tryPlace(search, item, place, clamp(x + dx, minX, maxX), clamp(y + dy, minY, maxY)) ||
      tryPlace(search, item, place, clamp(x - dx, minX, maxX), clamp(y - dy, minY, maxY))
    ) {
      step *= 1.1;
    } else {
      step *= 0.5;
    }
  }
}

/** Moves the place to (x, y) if that costs less. */
function tryPlace(search: Search, item: number, place: Place, x: number, y: number): boolean {
  const cost = overlapNear(search, item, place.shape, x, y, place.cost);
  if (cost >= place.cost) return false;
  place.x = x;
  place.y = y;
  place.cost = cost;
  return true;
}

function clamp(value: number, low: number, high: number): number {
  return Math.max(low, Math.min(high, value));
}

function mix(low: number, high: number, t: number): number {
  return low + t * (high - low);
}
