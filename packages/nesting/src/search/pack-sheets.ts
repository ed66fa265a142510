import { randomIndex } from "../random.js";
import { construct, largestFirst } from "./construct.js";
import { type FailedLayouts, tryAgain } from "./failed-layouts.js";
import type { Instance } from "./instance.js";
import { usualMove } from "./move.js";
import { nofitEngine } from "./nofit-engine.js";
import { type Boxes, newSearch, rebuild, type Search } from "./search.js";
import { separate } from "./separation.js";

/** Where one item lies: its shape's centre in the sheet, of which the lower left corner is the origin. */
export interface SheetPlace {
  readonly sheet: number;
  readonly shape: number;
  readonly x: number;
  readonly y: number;
}

/** Where all items lie, if a way was found, and the placement searches done. */
export interface PackedSheets {
  readonly places: readonly SheetPlace[] | undefined;
  readonly steps: number;
}

/**
 * Lays all items of an instance on so many equal sheets, if it finds a way within the steps.
 *
 * First bottom-left, sheet after sheet; what finds no room there is thrown in somewhere, and all is separated, items
 * moving from sheet to sheet as they will, as on a strip of fixed length. Every item must fit the sheet in each of its
 * shapes. Cost: one bottom-left layout, and the steps when that does not do.
 */
export function packSheets(
  instance: Instance,
  { length, width }: { readonly length: number; readonly width: number },
  sheets: number,
  steps: number,
  seed: number,
): PackedSheets {
  const boxes = sideBySide(length, width, sheets);
  const search = newSearch(nofitEngine, instance, boxes, seed);
  if (construct(search, largestFirst(search)) < instance.movable) {
    throwIn(search, length, width);
    if (!separated(search, steps)) return { places: undefined, steps: search.steps };
  }
  const places = Array.from({ length: instance.movable }, (_, item): SheetPlace => {
    const sheet = search.box[item];
    return {
      sheet,
      shape: search.shape[item],
      x: search.x[item] - boxes.minX[sheet],
      y: search.y[item] - boxes.minY[sheet],
    };
  });
  return { places, steps: search.steps };
}

/** Sheets in one plane, so far apart that items on different ones never meet. */
function sideBySide(length: number, width: number, sheets: number): Boxes {
  const minX = Float64Array.from({ length: sheets }, (_, sheet) => 2 * sheet * length);
  return {
    count: sheets,
    minX,
    minY: new Float64Array(sheets),
    maxX: minX.map((x) => x + length),
    maxY: new Float64Array(sheets).fill(width),
  };
}

function throwIn(search: Search, length: number, width: number): void {
  const { instance, boxes, random, present, box, x, y } = search;
  for (let item = 0; item < instance.movable; item++) {
    if (present[item]) continue;
    present[item] = 1;
    box[item] = randomIndex(random, boxes.count);
    x[item] = boxes.minX[box[item]] + random() * length;
    y[item] = random() * width;
  }
  rebuild(search);
}

function separated(search: Search, steps: number): boolean {
  const failed: FailedLayouts = [];
  for (;;) {
    const course = separate(search, { move: usualMove, patience: 50, rounds: 2 });
    for (;;) {
      const step = course.next();
      if (step.done && step.value) return true;
      if (step.done) break;
      if (search.steps > steps) return false;
    }
    tryAgain(search, failed);
  }
}
