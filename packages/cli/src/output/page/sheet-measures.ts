import { type Box, bounds, placeRegion, regionArea, regionBounds, signedArea } from "@keelcut/geometry";
import { largestRest, type Stock } from "@keelcut/nesting";
import { type NumberedPlate, type NumberedSheet, plateNamed } from "./numbering.js";

/** What one sheet holds and what it leaves. Areas mm2. */
export interface SheetMeasures {
  readonly stock: Stock;
  readonly box: Box;
  readonly stockArea: number;
  readonly plateArea: number;
  /** Net area of the plates over the area of the sheet, 0..1. */
  readonly utilisation: number;
  /** Largest rectangle that can be sawn off a rectangular sheet. */
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
  const taken: Box[] = [];
  for (const placement of sheet.placements) {
    const { plate } = plateNamed(plates, placement.part);
    plateArea += regionArea(plate.region);
    taken.push(regionBounds(placeRegion(plate.region, placement)));
  }
  const free = largestRest(stock, taken, nest.clearance, { length: 1, width: 1 });
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
