import type { Finding, LengthItem } from "@keelcut/geometry";
import type { StockList } from "../input/stock-list.js";
import type { CostLine, LengthPieces, LengthUse } from "./cost-estimate.js";
import { largerIsCheaper, lengthShort, missingPrice, stockShort } from "./findings.js";
import type { LengthProblem } from "./lengths/length-plan.js";
import { type PackedLengths, packLengths } from "./lengths/pack-lengths.js";
import { pricedLine, unpricedLine } from "./line.js";
import { amount, moneyText, toDecimals, withSpares } from "./money.js";
import { tiersOf } from "./purchase.js";
import type { Prices } from "./sheet-cost.js";
import { lengthMass } from "./weights.js";

export interface LengthCost {
  readonly lines: readonly CostLine[];
  readonly lengths: readonly LengthUse[];
  readonly findings: readonly Finding[];
}

/** Rods and pipes for all kits and spares, sawn from the lengths they are sold in. */
export async function lengthCost(
  items: readonly LengthItem[],
  kits: number,
  sparePercent: number,
  prices: Prices,
): Promise<LengthCost> {
  const costs: LengthCost[] = [];
  for (const group of groupedPieces(items, kits, sparePercent, prices.stockList)) {
    costs.push(await itemCost(group, prices));
  }
  return {
    lines: costs.flatMap((cost) => cost.lines),
    lengths: costs.flatMap((cost) => cost.lengths),
    findings: costs.flatMap((cost) => cost.findings),
  };
}

/** One entry an item, with its pieces by length, longest first. */
function groupedPieces(
  items: readonly LengthItem[],
  kits: number,
  sparePercent: number,
  stockList: StockList,
): LengthUse[] {
  const least = stockList.selling.spares.least.lengths;
  const groups = new Map<string, LengthItem[]>();
  for (const item of items) groups.set(item.item, [...(groups.get(item.item) ?? []), item]);
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (first === undefined) return [];
    const byLength = new Map<number, LengthItem>();
    for (const entry of group) {
      const before = byLength.get(entry.length);
      const count = (before?.count ?? 0) + entry.count;
      byLength.set(entry.length, { ...entry, count, uses: [...(before?.uses ?? []), ...entry.uses] });
    }
    const pieces = [...byLength.values()]
      .filter((entry) => entry.count > 0)
      .sort((a, b) => b.length - a.length)
      .map((entry): LengthPieces => {
        const wanted = entry.count * kits;
        const total = withSpares(wanted, sparePercent, least);
        return {
          length: entry.length,
          mass: lengthMass(entry, stockList),
          perKit: entry.count,
          spares: total - wanted,
          total,
          uses: entry.uses,
        };
      });
    return [{ item: first.item, kind: first.kind, pieces }];
  });
}

async function itemCost(use: LengthUse, prices: Prices): Promise<LengthCost> {
  const entries = prices.stockList.lengths.filter((entry) => entry.item === use.item);
  const metres = use.pieces.reduce((sum, piece) => sum + piece.length * piece.total, 0) / 1000;
  const figures = { item: use.item, quantity: toDecimals(metres, 3), unit: "m" };
  const without = (why: string, finding: Finding): LengthCost => ({
    lines: [unpricedLine("length", figures, why)],
    lengths: [use],
    findings: [finding],
  });
  if (use.pieces.length === 0) return { lines: [], lengths: [use], findings: [] };
  if (entries.length === 0) {
    const message = `${use.item} has no price: add it under lengths in the stock list`;
    return without("no price in the stock list", missingPrice(use.item, message));
  }
  const problem: LengthProblem = {
    pieces: use.pieces.map((piece) => ({ length: piece.length, count: piece.total })),
    stock: entries.map((entry) => ({
      length: entry.length,
      tiers: tiersOf(entry.price),
      atHand: entry.atHand,
      ...(entry.available === undefined ? {} : { available: entry.available }),
    })),
    kerf: prices.stockList.sawKerf,
  };
  const packed = await packLengths(problem);
  if (!packed.ok)
    return without("does not come out of the stock list", shortFinding(use.item, packed, problem));
  const lines = purchaseLines(use.item, packed.plan.use, prices, entries);
  const findings = packed.plan.use.flatMap((bought) => {
    if (bought.dearer === undefined || bought.each === undefined) return [];
    const money = (count: number, each: number): string =>
      `${moneyText(amount(prices.exponent, count, each), prices.exponent)} ${prices.currency}`;
    const { packs, each } = bought.dearer;
    const wanted = { count: packs, money: money(packs, each) };
    const taken = { count: bought.bought, money: money(bought.bought, bought.each) };
    return [largerIsCheaper(use.item, wanted, taken, `lengths of ${bought.length} mm`)];
  });
  return { lines, lengths: [{ ...use, plan: packed.plan, orders: entries.map(orderOf) }], findings };
}

/** Supplier and order number of a length, as far as the list names them. */
function orderOf({ supplier, order }: Prices["stockList"]["lengths"][number]): string {
  return [supplier, order].filter((each) => each !== undefined).join(" ");
}

function purchaseLines(
  item: string,
  uses: Extract<PackedLengths, { ok: true }>["plan"]["use"],
  prices: Prices,
  entries: Prices["stockList"]["lengths"],
): CostLine[] {
  return uses.flatMap((use, index) => {
    const { supplier } = entries[index] ?? {};
    const named = `${item}, length ${use.length} mm`;
    const lines: CostLine[] = [];
    if (use.atHand > 0) {
      const figures = { item: named, quantity: use.atHand, unit: "length", rate: 0 };
      lines.push(pricedLine(prices.exponent, "length", figures, `lengths: ${item}, at hand`));
    }
    if (use.bought > 0) {
      const figures = { item: named, quantity: use.bought, unit: "length" };
      const where = supplier === undefined ? "" : `, from ${supplier}`;
      const from = `lengths: ${item}, ${use.used} sawn${where}`;
      lines.push(
        prices.usable && use.each !== undefined
          ? pricedLine(prices.exponent, "length", { ...figures, rate: use.each }, from)
          : unpricedLine("length", figures, "price in another currency"),
      );
    }
    return lines;
  });
}

function shortFinding(
  item: string,
  packed: Extract<PackedLengths, { ok: false }>,
  problem: LengthProblem,
): Finding {
  if (packed.why === "stock-used-up") {
    const counts = problem.stock.map(
      (stock) =>
        `${stock.available === undefined ? "any number" : stock.atHand + stock.available} of ${stock.length} mm`,
    );
    return stockShort(
      item,
      `the pieces do not come out of ${counts.join(" and ")}; raise available in the stock list`,
    );
  }
  const longest = Math.max(...problem.stock.map((stock) => stock.length));
  return lengthShort(item, packed.pieces, longest);
}
