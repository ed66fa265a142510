import { randomIndex } from "../random.js";
import { rebuild, type Search } from "./search.js";

/**
 * Disturbances: how a search leaves a layout that separation cannot free.
 *
 * Half of them exchange two large items of different kinds wherever they lie, so the order along a strip changes; the
 * others shuffle a handful of neighbours among their own places, so a knot is tied anew while the rest stays. Items
 * take random turns. What then overlaps is left to separation. Cost: one sort of the items and one rebuild.
 */
export function disturb(search: Search): void {
  const moved = search.random() < EXCHANGES ? exchangeTwo(search) : shuffleNeighbours(search);
  for (const item of moved) search.engine.turnAtRandom(search, item);
  rebuild(search);
}

/** Share of disturbances that exchange two items far and near. */
const EXCHANGES = 0.5;

/** Share of shuffles around an item in conflict; the others are around any. */
const KNOTTED = 0.5;

/** A shuffle takes in from three to six items. */
const FEWEST = 3;
const MOST = 6;

function exchangeTwo(search: Search): readonly number[] {
  const { kindOfItem } = search.instance;
  const a = largeItem(search);
  let b = largeItem(search);
  for (let tries = 0; tries < 20 && kindOfItem[a] === kindOfItem[b]; tries++) b = largeItem(search);
  exchangePlaces(search, a, b);
  return [a, b];
}

function shuffleNeighbours(search: Search): readonly number[] {
  const { instance, random, x, y } = search;
  const centre = random() < KNOTTED ? knottedItem(search) : randomIndex(random, instance.movable);
  const distance = (i: number): number => Math.hypot(x[i] - x[centre], y[i] - y[centre]);
  const count = FEWEST + randomIndex(random, MOST - FEWEST + 1);
  const group = Array.from({ length: instance.movable }, (_, i) => ({ i, distance: distance(i) }))
    .sort((a, b) => a.distance - b.distance || a.i - b.i)
    .slice(0, count)
    .map(({ i }) => i);
  for (let k = group.length - 1; k > 0; k--)
    exchangePlaces(search, group[k], group[randomIndex(random, k + 1)]);
  return group;
}

/** An item in conflict, if there is one; any item otherwise. */
function knottedItem({ instance, book, random }: Search): number {
  const from = randomIndex(random, instance.movable);
  for (let k = 0; k < instance.movable; k++) {
    const item = (from + k) % instance.movable;
    if (book.conflicts[item] > 0) return item;
  }
  return from;
}

function exchangePlaces({ x, y, box }: Search, a: number, b: number): void {
  [x[a], x[b]] = [x[b], x[a]];
  [y[a], y[b]] = [y[b], y[a]];
  [box[a], box[b]] = [box[b], box[a]];
}

/** An item drawn with a chance that grows with its area: the largest of three. */
function largeItem(search: Search): number {
  const { instance, random } = search;
  let best = randomIndex(random, instance.movable);
  for (let k = 0; k < 2; k++) {
    const other = randomIndex(random, instance.movable);
    if (instance.area[instance.kindOfItem[other]] > instance.area[instance.kindOfItem[best]]) best = other;
  }
  return best;
}
