import type { Finding, HardwareItem } from "@keelcut/geometry";
import type { CostLine, HardwareUse } from "./cost-estimate.js";
import { largerIsCheaper, missingPrice } from "./findings.js";
import { pricedLine, unpricedLine } from "./line.js";
import { amount, moneyText, withSpares } from "./money.js";
import { cheapestPurchase, type Offer, offerOf, type Purchase, partsOf } from "./purchase.js";
import type { Prices } from "./sheet-cost.js";
import { hardwareMass } from "./weights.js";

export interface HardwareCost {
  readonly lines: readonly CostLine[];
  readonly hardware: readonly HardwareUse[];
  readonly findings: readonly Finding[];
}

/** Screws, nuts and the like for all kits and spares: at hand first, the rest in the cheapest packs. */
export function hardwareCost(
  items: readonly HardwareItem[],
  kits: number,
  sparePercent: number,
  prices: Prices,
): HardwareCost {
  const costs = mergedItems(items).map((item) => itemCost(item, kits, sparePercent, prices));
  return {
    lines: costs.flatMap((cost) => cost.lines),
    hardware: costs.flatMap((cost) => cost.hardware),
    findings: costs.flatMap((cost) => cost.findings),
  };
}

/** One entry an item: two places of the frame may need the same screw. */
function mergedItems(items: readonly HardwareItem[]): HardwareItem[] {
  const merged = new Map<string, HardwareItem>();
  for (const item of items) {
    const before = merged.get(item.item);
    merged.set(
      item.item,
      before === undefined
        ? item
        : { ...before, count: before.count + item.count, uses: [...before.uses, ...item.uses] },
    );
  }
  return [...merged.values()];
}

/** Nobody buys a spare motor for a screw that may get lost. */
const WITHOUT_SPARES: ReadonlySet<HardwareItem["kind"]> = new Set(["motor", "propeller", "part", "ballast"]);

function itemCost(item: HardwareItem, kits: number, sparePercent: number, prices: Prices): HardwareCost {
  const wanted = item.count * kits;
  const { least } = prices.stockList.selling.spares;
  const total = WITHOUT_SPARES.has(item.kind) ? wanted : withSpares(wanted, sparePercent, least.hardware);
  const entries = prices.stockList.hardware.filter((entry) => entry.item === item.item);
  const atHand = Math.min(
    total,
    entries.reduce((sum, entry) => sum + entry.atHand, 0),
  );
  const need = total - atHand;
  const mass = hardwareMass(item, prices.stockList);
  const use: HardwareUse = {
    item: item.item,
    kind: item.kind,
    perKit: item.count,
    spares: total - wanted,
    total,
    atHand,
    bought: 0,
    uses: item.uses,
    ...(mass !== undefined && { mass }),
  };
  const lines: CostLine[] = [];
  if (atHand > 0) {
    const figures = { item: item.item, quantity: atHand, unit: "piece", rate: 0 };
    lines.push(pricedLine(prices.exponent, "hardware", figures, `hardware: ${item.item}, at hand`));
  }
  if (need === 0) return { lines, hardware: [use], findings: [] };
  const figures = { item: item.item, quantity: need, unit: "piece" };
  if (entries.length === 0 || !prices.usable) {
    const why = entries.length === 0 ? "no price in the stock list" : "price in another currency";
    const message = `${item.item} has no price: add it under hardware in the stock list`;
    return {
      lines: [...lines, unpricedLine("hardware", figures, why)],
      hardware: [{ ...use, bought: need }],
      findings: entries.length === 0 ? [missingPrice(item.item, message)] : [],
    };
  }
  const offers = entries.map((entry): Offer => ({ pack: entry.pack, ...offerOf(entry.price) }));
  const purchase = cheapestPurchase(need, offers);
  if (purchase === undefined) throw new Error(`packs without a limit always cover ${need} x ${item.item}`);
  lines.push(...packLines(item.item, offers, purchase, need, prices, entries));
  return {
    lines,
    hardware: [{ ...use, bought: purchase.pieces, orders: ordersOf(purchase, entries) }],
    findings: largerNotes(item.item, offers, purchase, prices),
  };
}

type Entry = Prices["stockList"]["hardware"][number];

/** Who is asked for how many packs of what; nothing where the list names neither supplier nor order number. */
function ordersOf({ bought }: Purchase, entries: readonly Entry[]): string[] {
  return bought.flatMap(({ packs }, index) => {
    const { supplier, order, pack = 1 } = entries[index] ?? {};
    if (packs === 0 || (supplier === undefined && order === undefined)) return [];
    const what = pack === 1 ? `${packs}` : `${packs} x ${pack}`;
    return [[what, ...[supplier, order].filter((each) => each !== undefined)].join(" ")];
  });
}

function packLines(
  item: string,
  offers: readonly Offer[],
  purchase: Purchase,
  need: number,
  prices: Prices,
  entries: readonly Entry[],
): CostLine[] {
  return purchase.bought.flatMap((bought, index) => {
    const pack = offers[index]?.pack ?? 1;
    if (bought.packs === 0) return [];
    const unit = pack === 1 ? "piece" : `pack of ${pack}`;
    const left = purchase.pieces - need;
    const { supplier } = entries[index] ?? {};
    const where = supplier === undefined ? "" : `, from ${supplier}`;
    const from = `hardware: ${item}, ${need} needed${left > 0 ? `, ${left} left over` : ""}${where}`;
    return partsOf(bought).map((part) => {
      const figures = { item, quantity: part.packs, unit, rate: part.each };
      return pricedLine(prices.exponent, "hardware", figures, from);
    });
  });
}

function largerNotes(item: string, offers: readonly Offer[], purchase: Purchase, prices: Prices): Finding[] {
  const index = purchase.bought.findIndex((bought) => bought.packs > 0);
  const bought = purchase.bought[index];
  if (purchase.dearer === undefined || bought === undefined) return [];
  const money = (packs: number, each: number): string =>
    `${moneyText(amount(prices.exponent, packs, each), prices.exponent)} ${prices.currency}`;
  const pack = offers[index]?.pack ?? 1;
  const { packs, each } = purchase.dearer;
  return [
    largerIsCheaper(
      item,
      { count: packs, money: money(packs, each) },
      { count: bought.packs, money: money(bought.packs, bought.each) },
      pack === 1 ? "pieces" : `packs of ${pack}`,
    ),
  ];
}
