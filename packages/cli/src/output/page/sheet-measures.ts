import {
  type Box,
  bounds,
  type Contour,
  placeRegion,
  regionArea,
  regionBounds,
  signedArea,
} from "@keelcut/geometry";
import type { Stock } from "@keelcut/nesting";
import { largestFreeRectangle } from "../../cost/free-rectangle.js";
import { type NumberedPlate, type NumberedSheet, plateNamed } from "./numbering.js";

/** What one sheet holds and what it leaves. Areas mm2. */
export interface SheetMeasures {
  readonly stock: Stock;
  readonly box: Box;
  readonly stockArea: number;
  readonly plateArea: number;
  /** Net area of the plates over the area of the sheet, 0..1. */
  readonly utilisation: number;
  /** Largest rectangle that holds no plate, on a rectangular sheet; clearances are not taken off. */
  readonly freeRectangle?: Box;
}

/** Counts and measures one sheet from its placements. */
export function measureSheet(numbered: NumberedSheet, plates: readonly NumberedPlate[]): SheetMeasures {
  const { nest, sheet } = numbered;
  const stock = nest.stock.find((s) => s.id === sheet.stock);
  if (stock === undefined)
    throw new RangeError(`a sheet lies on the stock ${sheet.stock}, which is not in the job`);
  const box = bounds(stock.outline);
  const stockArea = Math.abs(signedArea(stock.outline));
  let plateArea = 0;
  const taken: Box[] = stock.keepOuts.map(bounds);
  for (const placement of sheet.placements) {
    const { plate } = plateNamed(plates, placement.part);
    plateArea += regionArea(plate.region);
    taken.push(regionBounds(placeRegion(plate.region, placement)));
  }
  const free = isRectangle(stock.outline, box, stockArea)
    ? largestFreeRectangle(box.maxX, box.maxY, taken, { length: 1, width: 1 })
    : undefined;
  return {
    stock,
    box,
    stockArea,
    plateArea,
    utilisation: plateArea / stockArea,
    ...(free && { freeRectangle: free }),
  };
}

/** Net area of all plates over the area of all sheets, each counted as often as it is cut, 0..1. */
export function overallYield(sheets: readonly NumberedSheet[], plates: readonly NumberedPlate[]): number {
  let plateArea = 0;
  let stockArea = 0;
  for (const numbered of sheets) {
    const measures = measureSheet(numbered, plates);
    plateArea += measures.plateArea * numbered.sheet.times;
    stockArea += measures.stockArea * numbered.sheet.times;
  }
  return stockArea === 0 ? 0 : plateArea / stockArea;
}

/** A rectangle from the origin, as the stock list makes whole sheets. */
function isRectangle(outline: Contour, box: Box, area: number): boolean {
  const boxArea = box.maxX * box.maxY;
  const straight = outline.every((vertex) => vertex.bulge === 0);
  return straight && box.minX === 0 && box.minY === 0 && Math.abs(area - boxArea) <= 1e-9 * boxArea;
}
