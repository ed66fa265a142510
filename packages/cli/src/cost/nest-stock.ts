import { counterClockwise, polygon, rectangle } from "@keelcut/geometry";
import type { Stock } from "@keelcut/nesting";
import type { StockList } from "../input/stock-list.js";
import { tierPrice, tiersOf } from "./purchase.js";

/** Ending of the id of pieces already owned; the pieces to buy of the same sheet have the bare id. */
const AT_HAND = "/at-hand";

/**
 * The sheets and offcuts of one material and thickness, as a packing job takes them: what is at hand at no cost, what can be
 * bought at the price of one. Tiers depend on the number bought, which only the finished layout tells.
 */
export function nestStock(stockList: StockList, material: string, thickness: number): Stock[] {
  const same = (entry: { material: string; thickness: number }): boolean =>
    entry.material === material && entry.thickness === thickness;
  const outlines = (corners: readonly (readonly [number, number])[]) =>
    counterClockwise(polygon(corners.map(([x, y]) => ({ x, y }))));
  const offcuts = stockList.offcuts.filter(same).map(
    (offcut): Stock => ({
      id: offcut.id,
      outline: outlines(offcut.outline),
      keepOuts: offcut.keepOuts.map(outlines),
      available: offcut.count,
      cost: 0,
    }),
  );
  const sheets = stockList.sheets.filter(same).flatMap((sheet): Stock[] => {
    const shape = {
      outline: rectangle(0, 0, sheet.length, sheet.width),
      keepOuts: sheet.keepOuts.map(outlines),
    };
    const owned = { id: sheet.id + AT_HAND, ...shape, available: sheet.atHand, cost: 0 };
    const cost = tierPrice(tiersOf(sheet.price), 1);
    const bought = { id: sheet.id, ...shape, available: sheet.available ?? ("unlimited" as const), cost };
    return [owned, bought].filter((stock) => stock.available !== 0);
  });
  return [...offcuts, ...sheets];
}

/** The id in the stock list of a stock id that `nestStock` made. */
export function stockListId(stock: string): string {
  return stock.endsWith(AT_HAND) ? stock.slice(0, -AT_HAND.length) : stock;
}
