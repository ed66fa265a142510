import { type Finding, regionArea, signedArea } from "@keelcut/geometry";
import {
  largestRest,
  type NestPart,
  type NestResult,
  placedBoxes,
  type Sheet,
  type Stock,
} from "@keelcut/nesting";
import type { StockList } from "../input/stock-list.js";
import type { CostLine, MaterialUse, SheetUse } from "./cost-estimate.js";
import { largerIsCheaper, missingPrice, stockShort } from "./findings.js";
import { pricedLine, unpricedLine } from "./line.js";
import { amount, moneyText, toDecimals } from "./money.js";
import { stockListId } from "./nest-stock.js";
import { cheapestPurchase, offerOf, partsOf, tierPrice } from "./purchase.js";

/** One material's plates laid on its stock. */
export interface NestedMaterial {
  readonly material: string;
  readonly thickness: number;
  readonly result: NestResult;
  readonly stock: readonly Stock[];
  readonly parts: readonly NestPart[];
  /** No plan takes fewer sheets, as far as planning many kits has shown. */
  readonly leastSheets?: number;
}

export interface SheetCost {
  readonly lines: readonly CostLine[];
  readonly material: MaterialUse;
  readonly findings: readonly Finding[];
}

/** Prices of one estimate: the list, the currency's decimals, and whether the list's currency is the shop's. */
export interface Prices {
  readonly stockList: StockList;
  readonly exponent: number;
  readonly currency: string;
  readonly usable: boolean;
}

/**
 * Whole sheets of one material: at hand first, the rest bought at the tier of the quantity, less the credit for rests that are
 * large enough to keep.
 */
export function sheetCost(nest: NestedMaterial, prices: Prices, clearance: number): SheetCost {
  const lines: CostLine[] = [];
  const findings: Finding[] = [];
  const sheets: SheetUse[] = [];
  const place = `${nest.material} ${nest.thickness} mm`;
  for (const [stock, layouts] of layoutsByStock(nest.result.sheets)) {
    const used = layouts.reduce((sum, sheet) => sum + sheet.times, 0);
    const priced = priceSheets(stock, used, place, nest, prices);
    lines.push(...priced.lines);
    findings.push(...priced.findings);
    sheets.push(priced.use);
    lines.push(...restCredit(stock, layouts, priced.use, nest, prices, clearance));
  }
  const unplaced = nest.result.unplaced.reduce((sum, part) => sum + part.count, 0);
  if (unplaced > 0) {
    findings.push(
      stockShort(place, `${unplaced} plates could not be laid on the stock; their cost is missing`),
    );
  }
  return { lines, findings, material: { ...areas(nest), sheets } };
}

function layoutsByStock(sheets: readonly Sheet[]): Map<string, Sheet[]> {
  const byStock = new Map<string, Sheet[]>();
  for (const sheet of sheets) {
    const id = stockListId(sheet.stock);
    byStock.set(id, [...(byStock.get(id) ?? []), sheet]);
  }
  return byStock;
}

function priceSheets(
  stock: string,
  used: number,
  place: string,
  nest: NestedMaterial,
  prices: Prices,
): { lines: CostLine[]; findings: Finding[]; use: SheetUse } {
  const { exponent, stockList } = prices;
  const base = { material: nest.material, thickness: nest.thickness, stock, used };
  const offcut = stockList.offcuts.find((entry) => entry.id === stock);
  if (offcut !== undefined) {
    const figures = { item: `offcut ${stock}, ${place}`, quantity: used, unit: "sheet", rate: 0 };
    const line = pricedLine(exponent, "sheet", figures, `offcuts: ${stock}, at hand`);
    return { lines: [line], findings: [], use: { ...base, atHand: used, bought: 0 } };
  }
  const entry = stockList.sheets.find((sheet) => sheet.id === stock);
  const item = `sheet ${stock}, ${place}`;
  if (entry === undefined) {
    const message = `sheet ${stock} is used ${used} times and has no price: add it under sheets in the stock list`;
    const line = unpricedLine("sheet", { item, quantity: used, unit: "sheet" }, "no price in the stock list");
    return {
      lines: [line],
      findings: [missingPrice(place, message)],
      use: { ...base, atHand: 0, bought: used },
    };
  }
  const lines: CostLine[] = [];
  const findings: Finding[] = [];
  const atHand = Math.min(used, entry.atHand);
  if (atHand > 0) {
    const figures = { item, quantity: atHand, unit: "sheet", rate: 0 };
    lines.push(pricedLine(exponent, "sheet", figures, `sheets: ${stock}, at hand`));
  }
  const need = used - atHand;
  if (need === 0) return { lines, findings, use: { ...base, atHand, bought: 0 } };
  const offered = offerOf(entry.price);
  const { tiers } = offered;
  const offer = {
    pack: 1,
    ...offered,
    ...(entry.minimumOrder === undefined ? {} : { minimum: entry.minimumOrder }),
    ...(entry.available === undefined ? {} : { available: entry.available }),
  };
  const purchase = cheapestPurchase(need, [offer]);
  const bought = purchase?.bought[0] ?? { packs: need, each: tierPrice(tiers, need) };
  if (purchase === undefined) {
    const least = Math.max(need, entry.minimumOrder ?? 1, tiers[0]?.from ?? 1);
    const message = `${least} sheets ${stock} must be bought and ${entry.available ?? 0} can be had`;
    findings.push(stockShort(place, message));
  }
  if (purchase?.dearer !== undefined) {
    const { packs, each } = purchase.dearer;
    const text = (count: number, price: number): string =>
      `${moneyText(amount(exponent, count, price), exponent)} ${prices.currency}`;
    findings.push(
      largerIsCheaper(
        stock,
        { count: packs, money: text(packs, each) },
        { count: bought.packs, money: text(bought.packs, bought.each) },
        "sheets",
      ),
    );
  }
  const minimum = bought.packs > need ? `, ${need} needed` : "";
  let reached = 0;
  for (const { packs, each } of partsOf(bought)) {
    reached += packs;
    const tier = tiers.length > 1 ? `, price from ${tierFrom(tiers, reached)} on` : "";
    const figures = { item, quantity: packs, unit: "sheet" };
    lines.push(
      prices.usable
        ? pricedLine(exponent, "sheet", { ...figures, rate: each }, `sheets: ${stock}${minimum}${tier}`)
        : unpricedLine("sheet", figures, "price in another currency"),
    );
  }
  return { lines, findings, use: { ...base, atHand, bought: bought.packs, each: bought.each } };
}

function tierFrom(tiers: readonly { readonly from: number }[], packs: number): number {
  return tiers.findLast((tier) => tier.from <= packs)?.from ?? tiers[0]?.from ?? 1;
}

/**
 * Credit for the largest free rectangle of each bought sheet, by area, when it is large enough. Plates count as their bounding
 * boxes grown by the clearance, so the rest can really be sawn off. Sheets at hand are taken to be those cut first.
 */
function restCredit(
  stock: string,
  layouts: readonly Sheet[],
  use: SheetUse,
  nest: NestedMaterial,
  prices: Prices,
  clearance: number,
): CostLine[] {
  const worth = prices.stockList.offcutWorth;
  const entry = prices.stockList.sheets.find((sheet) => sheet.id === stock);
  const piece = nest.stock.find(({ id }) => stockListId(id) === stock);
  if (worth === undefined || entry === undefined || piece === undefined) return [];
  if (use.each === undefined || !prices.usable) return [];
  const credit = (item: string, square: number, count: string): CostLine => {
    const rate = -toDecimals(((use.each ?? 0) * worth.percent) / 100, 6);
    const from = `offcutWorth: ${worth.percent} % of ${use.each} by area, ${count}`;
    const figures = { item, quantity: toDecimals(square, 4), unit: "sheet", rate };
    const line = pricedLine(prices.exponent, "sheet", figures, from);
    return { ...line, comparedAs: `rests of ${stock} kept` };
  };
  let atHand = use.atHand;
  const rests = layouts.flatMap((layout) => {
    const owned = Math.min(atHand, layout.times);
    atHand -= owned;
    const count = layout.times - owned;
    const rest =
      count === 0
        ? undefined
        : largestRest(piece, placedBoxes(layout.placements, nest.parts), clearance, worth);
    if (rest === undefined) return [];
    const length = rest.maxX - rest.minX;
    const width = rest.maxY - rest.minY;
    const square = ((length * width) / (entry.length * entry.width)) * count;
    const size = `${Math.floor(length)} x ${Math.floor(width)} mm`;
    return [credit(`offcut of ${stock} kept, ${size}`, square, `${count} x`)];
  });
  const whole = use.bought + use.atHand - use.used;
  return whole > 0 ? [...rests, credit(`whole ${stock} kept`, whole, `${whole} bought beyond need`)] : rests;
}

function areas(nest: NestedMaterial): Omit<MaterialUse, "sheets"> {
  const areaOf = new Map(nest.parts.map((part) => [part.id, regionArea(part.region)]));
  const sheetArea = new Map(nest.stock.map((stock) => [stock.id, Math.abs(signedArea(stock.outline))]));
  const largest = Math.max(0, ...sheetArea.values());
  let plates = 0;
  let cut = 0;
  let sheetCount = 0;
  for (const sheet of nest.result.sheets) {
    const area = sheetArea.get(sheet.stock) ?? 0;
    cut += sheet.times * area;
    sheetCount += sheet.times;
    plates += sheet.times * sheet.placements.reduce((sum, placed) => sum + (areaOf.get(placed.part) ?? 0), 0);
  }
  return {
    material: nest.material,
    thickness: nest.thickness,
    sheetCount,
    sheetArea: cut,
    leastSheets: nest.leastSheets ?? (largest === 0 ? 0 : Math.ceil(plates / largest - 1e-9)),
    yield: cut === 0 ? 0 : plates / cut,
  };
}
