import { extentOf, type Polygon, polygonArea, reversedRing, type Turn } from "../nofit/polygon.js";
import { randomIndex } from "../random.js";
import { construct } from "./construct.js";
import { compileInstance, type FixedShape, type Instance, turnsWithin } from "./instance.js";
import { moveItem, usualMove } from "./move.js";
import { nofitEngine } from "./nofit-engine.js";
import { totalOverlap } from "./pair-book.js";
import { type Boxes, newSearch, rebuild, remove, resetWeights, type Search } from "./search.js";
import { separate } from "./separation.js";
import { restoreSnapshot, type Snapshot, takeSnapshot } from "./snapshot.js";

/** One kind of item that may be laid on the sheet. */
export interface SheetItem {
  readonly polygon: Polygon;
  readonly turns: readonly Turn[];
  /** Most copies of any filling. */
  readonly limit: number;
}

/** A sheet to be filled. Items are grown and the outline is shrunk by the caller, so touching is allowed. */
export interface SheetProblem {
  /** The usable outline; its openings are keep-outs. */
  readonly outline: Polygon;
  /** Further keep-outs and plates that lie there already. */
  readonly fixed: readonly Polygon[];
  readonly items: readonly SheetItem[];
}

/** A sheet compiled once and filled many times with different values, as pattern generation does. */
export interface CompiledSheet {
  readonly instance: Instance;
  readonly boxes: Boxes;
  readonly turns: readonly (readonly Turn[])[];
  /** The problem's number of each kind of the instance: kinds too large for the sheet are left out. */
  readonly itemOfKind: readonly number[];
}

export interface FilledSheet {
  /** Where each copy lies: mirrored if asked, rotated, then moved by (x, y). */
  readonly placements: readonly {
    readonly item: number;
    readonly x: number;
    readonly y: number;
    readonly rotation: number;
    readonly mirrored: boolean;
  }[];
  readonly value: number;
  readonly steps: number;
}

/** Builds what does not depend on values. RangeError for polygons that are none. */
export function compileSheet(problem: SheetProblem): CompiledSheet {
  const box = extentOf(problem.outline.outer);
  const width = box.maxX - box.minX;
  const height = box.maxY - box.minY;
  const area = polygonArea(problem.outline);
  const itemOfKind = problem.items.flatMap((item, k) =>
    turnsWithin(item.polygon, item.turns, { width, height }) > 0 ? [k] : [],
  );
  const kinds = itemOfKind.map((k) => {
    const { polygon, turns, limit } = problem.items[k];
    return { polygon, turns, demand: Math.min(limit, Math.floor(area / polygonArea(polygon))) };
  });
  const atOrigin = (polygon: Polygon): FixedShape => {
    const moved = (ring: Float64Array) => ring.map((value, i) => value - (i % 2 === 0 ? box.minX : box.minY));
    return { polygon: { outer: moved(polygon.outer), openings: polygon.openings.map(moved) }, box: 0 };
  };
  const fixed = [
    ...frameAround(problem.outline, width, height),
    ...problem.outline.openings.map((opening) => ({ outer: reversedRing(opening), openings: [] })),
    ...problem.fixed,
  ].map(atOrigin);
  return {
    instance: compileInstance(kinds, fixed, { width, height }),
    boxes: {
      count: 1,
      minX: Float64Array.of(box.minX),
      minY: Float64Array.of(box.minY),
      maxX: Float64Array.of(box.maxX),
      maxY: Float64Array.of(box.maxY),
    },
    turns: kinds.map((kind) => kind.turns),
    itemOfKind,
  };
}

/**
 * Fills the sheet with the most valuable items it can find (a knapsack whose fit is decided by separation).
 *
 * First the items are laid bottom-left, dearest per area first. Then, again and again: one more item is put in where it
 * overlaps least, often in the stead of another, the layout is separated, and what then still fits is added; if that
 * fails or is worth less it is undone. `values` and `limits` are by the problem's item numbers; steps and seed decide the result.
 *
 * Cost: one separation, some hundred placement searches, for each item tried.
 */
export function fillSheet(
  sheet: CompiledSheet,
  values: readonly number[],
  limits: readonly number[],
  effort: { readonly steps: number; readonly signal?: AbortSignal },
  seed: number,
): FilledSheet {
  const { instance, boxes, itemOfKind } = sheet;
  const search = newSearch(nofitEngine, instance, boxes, seed);
  const value = Array.from(instance.kindOfItem.subarray(0, instance.movable), (k) => values[itemOfKind[k]]);
  const order = dearestFirst(search, value, withinLimits(sheet, limits));
  construct(search, order);
  let best = takeSnapshot(search);
  let bestValue = worthOf(best, value);
  while (search.steps < effort.steps && !effort.signal?.aborted) {
    const absent = absentOf(search, order);
    if (absent.length === 0) break;
    const item = absent[Math.floor(absent.length * search.random() ** 2)];
    if (search.random() < EXCHANGES) leaveOut(search, anyPresent(search, order));
    putIn(search, item);
    if (separated(search)) construct(search, absentOf(search, order));
    const reached = anyOverlap(search) ? -Infinity : worthOf(search, value);
    if (reached >= bestValue) {
      best = takeSnapshot(search);
      bestValue = reached;
    } else {
      restoreSnapshot(search, best);
    }
    resetWeights(search);
    rebuild(search);
    search.steps++;
  }
  return { placements: placementsOf(sheet, best), value: bestValue, steps: search.steps };
}

/** Share of attempts that take an item out first. */
const EXCHANGES = 0.6;

function separated(search: Search): boolean {
  const course = separate(search, { move: usualMove, patience: 20, rounds: 1 });
  for (;;) {
    const step = course.next();
    if (step.done) return step.value;
  }
}

/** The first copies of each kind, as many as allowed. */
function withinLimits(sheet: CompiledSheet, limits: readonly number[]): number[] {
  const used = new Map<number, number>();
  const items: number[] = [];
  for (let i = 0; i < sheet.instance.movable; i++) {
    const kind = sheet.instance.kindOfItem[i];
    const count = (used.get(kind) ?? 0) + 1;
    used.set(kind, count);
    if (count <= limits[sheet.itemOfKind[kind]]) items.push(i);
  }
  return items;
}

/** Worthless items are not laid at all. */
function dearestFirst(search: Search, value: readonly number[], items: readonly number[]): number[] {
  const { area, kindOfItem } = search.instance;
  const density = (i: number): number => value[i] / area[kindOfItem[i]];
  return items
    .filter((i) => value[i] > 0)
    .sort((a, b) => density(b) - density(a) || area[kindOfItem[b]] - area[kindOfItem[a]] || a - b);
}

function worthOf({ present }: { readonly present: Uint8Array }, value: readonly number[]): number {
  return value.reduce((sum, v, i) => sum + (present[i] ? v : 0), 0);
}

function anyOverlap(search: Search): boolean {
  return totalOverlap(search.book, search.instance) > 0;
}

function absentOf(search: Search, order: readonly number[]): number[] {
  return order.filter((i) => !search.present[i]);
}

function anyPresent(search: Search, order: readonly number[]): number | undefined {
  const present = order.filter((i) => search.present[i]);
  return present.length === 0 ? undefined : present[randomIndex(search.random, present.length)];
}

function leaveOut(search: Search, item: number | undefined): void {
  if (item === undefined) return;
  remove(search, item);
  search.present[item] = 0;
}

/** Lays an item at a random place, then where it overlaps least. */
function putIn(search: Search, item: number): void {
  const { boxes, random } = search;
  search.present[item] = 1;
  search.box[item] = 0;
  search.x[item] = boxes.minX[0] + random() * (boxes.maxX[0] - boxes.minX[0]);
  search.y[item] = boxes.minY[0] + random() * (boxes.maxY[0] - boxes.minY[0]);
  rebuild(search);
  moveItem(search, item, usualMove);
}

/** All that is outside an outline, as far as it matters; nothing for a rectangle. */
function frameAround(outline: Polygon, width: number, height: number): Polygon[] {
  const ring = outline.outer;
  if (polygonArea({ outer: ring, openings: [] }) >= width * height * (1 - 1e-12)) return [];
  const box = extentOf(ring);
  const outer = Float64Array.of(
    box.minX - width,
    box.minY - height,
    box.maxX + width,
    box.minY - height,
    box.maxX + width,
    box.maxY + height,
    box.minX - width,
    box.maxY + height,
  );
  return [{ outer, openings: [reversedRing(ring)] }];
}

function placementsOf(sheet: CompiledSheet, best: Snapshot): FilledSheet["placements"] {
  const { instance, turns, itemOfKind } = sheet;
  return Array.from({ length: instance.movable }, (_, i) => i)
    .filter((i) => best.present[i])
    .map((i) => {
      const shape = best.shape[i];
      const kind = instance.kindOfItem[i];
      const turn = turns[kind][instance.turnOfShape[shape]];
      return {
        item: itemOfKind[kind],
        x: best.x[i] - instance.centreX[shape],
        y: best.y[i] - instance.centreY[shape],
        rotation: turn.rotation,
        mirrored: turn.mirrored,
      };
    });
}
