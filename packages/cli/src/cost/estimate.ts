import type { Finding, Frame } from "@keelcut/geometry";
import type { BridgeOptions } from "../bridges/bridge-places.js";
import type { ShopProfile } from "../input/shop-profile.js";
import type { StockList } from "../input/stock-list.js";
import { assumptions, type Given } from "./assumptions.js";
import {
  COST_GROUPS,
  type CostEstimate,
  type CostGroup,
  type CostLine,
  type CostPerKit,
  type CostTerms,
  type CostTotals,
  type Spares,
} from "./cost-estimate.js";
import { currencyConflict, missingPrice } from "./findings.js";
import { hardwareCost } from "./hardware-cost.js";
import { lengthCost } from "./length-cost.js";
import { pricedLine, unpricedLine } from "./line.js";
import { currencyExponent, type Money, moneyText, priceAtMargin, shared, toDecimals } from "./money.js";
import { type NestedMaterial, type Prices, sheetCost } from "./sheet-cost.js";
import { shopCost } from "./shop-cost.js";
import { kitWeights } from "./weights.js";

export interface EstimateInput {
  readonly frame: Frame;
  /** Every material's layouts for all kits and spares. */
  readonly nests: readonly NestedMaterial[];
  readonly shop: ShopProfile;
  readonly stockList: StockList;
  readonly kits: number;
  /** Bridges interrupt cut lines, and each line that is left is a start of its own; none when absent. */
  readonly bridges?: BridgeOptions;
  /** The stock list's `selling.spares` when absent. Plates: only told, the layouts already hold them. */
  readonly spares?: Spares;
  /** Which fields of the files were written; without it a value equal to its default counts as defaulted. */
  readonly given?: Given;
}

/**
 * What a job of `kits` kits takes and costs. The same input gives the same estimate. Asynchronous only because the solver for
 * sawing pipe and rod is loaded when it is needed.
 *
 * What has no price is a finding and an unpriced line, never a free one; prices in two currencies are an error finding.
 * Throws RangeError for a number of kits that is not a whole number above 0.
 */
export async function estimate(input: EstimateInput): Promise<CostEstimate> {
  const { frame, shop, stockList, kits } = input;
  if (!Number.isSafeInteger(kits) || kits < 1)
    throw new RangeError(`kits must be a whole number above 0, not ${kits}`);
  const spares = input.spares ?? stockList.selling.spares;
  const exponent = currencyExponent(shop.currency);
  const usable = shop.currency === stockList.currency;
  const prices: Prices = { stockList, exponent, currency: shop.currency, usable };

  const clearance = shop.cutting.kerf + shop.cutting.safetyGap;
  const sheets = input.nests.map((nest) => sheetCost(nest, prices, clearance));
  const cutting = shopCost(input.nests, shop, exponent, input.bridges);
  const hardware = hardwareCost(frame.hardware, kits, spares.hardware, prices);
  const lengths = await lengthCost(frame.lengths, kits, spares.lengths, prices);
  const packing = packingCost(stockList, kits, prices);

  const untaxed = [
    ...sheets.flatMap((cost) => cost.lines),
    ...cutting.lines,
    ...hardware.lines,
    ...lengths.lines,
    ...packing.lines,
    ...freightLines(shop, exponent),
  ];
  const lines = [...untaxed, ...taxLines(untaxed, shop, stockList, exponent)];
  const totals = sumLines(lines);
  return {
    frame: frame.parameters.name,
    shop: shop.name,
    currency: shop.currency,
    exponent,
    kits,
    spares,
    terms: terms(shop, stockList, usable),
    lines,
    totals,
    perKit: perKit(totals, kits, stockList.selling.marginPercent),
    material: sheets.map((cost) => cost.material),
    cutting: cutting.cutting,
    hardware: hardware.hardware,
    lengths: lengths.lengths,
    weights: kitWeights(frame, stockList),
    assumptions: assumptions(input, spares, cutting),
    findings: [
      ...(usable ? [] : [currencyConflict(shop.currency, stockList.currency)]),
      ...sheets.flatMap((cost) => cost.findings),
      ...cutting.findings,
      ...hardware.findings,
      ...lengths.findings,
      ...packing.findings,
    ],
  };
}

function packingCost(
  stockList: StockList,
  kits: number,
  prices: Prices,
): { lines: CostLine[]; findings: Finding[] } {
  const { packagingPerKit, packingMinutes, labourPerHour } = stockList.selling;
  const lines: CostLine[] = [];
  const findings: Finding[] = [];
  if (packagingPerKit > 0) {
    const figures = { item: "packaging", quantity: kits, unit: "kit" };
    lines.push(
      prices.usable
        ? pricedLine(
            prices.exponent,
            "packing",
            { ...figures, rate: packagingPerKit },
            "selling.packagingPerKit",
            "packagingPerKit",
          )
        : unpricedLine("packing", figures, "price in another currency"),
    );
  }
  if (packingMinutes > 0) {
    const figures = {
      item: "count and pack",
      quantity: toDecimals((kits * packingMinutes) / 60, 6),
      unit: "h",
    };
    const from = `${kits} kits x ${packingMinutes} min; selling.packingMinutes, labourPerHour`;
    if (labourPerHour === undefined || !prices.usable) {
      lines.push(unpricedLine("packing", figures, from));
      const message =
        "packing takes time and has no price: add labourPerHour under selling in the stock list";
      if (labourPerHour === undefined) findings.push(missingPrice("packing", message));
    } else {
      lines.push(
        pricedLine(prices.exponent, "packing", { ...figures, rate: labourPerHour }, from, "labourPerHour"),
      );
    }
  }
  return { lines, findings };
}

function freightLines(shop: ShopProfile, exponent: number): CostLine[] {
  const { freight } = shop.charges;
  if (freight === 0) return [];
  return [
    pricedLine(
      exponent,
      "freight",
      { item: "freight", quantity: 1, unit: "job", rate: freight },
      "charges.freight",
    ),
  ];
}

const SHOP_GROUPS: readonly CostGroup[] = ["cutting", "handling", "setup", "minimum", "freight"];
const LIST_GROUPS: readonly CostGroup[] = ["sheet", "hardware", "length"];

/** Groups of lines the tax is on. Own packing is not bought, so it is not taxed. */
function taxedGroups(stockList: StockList): readonly CostGroup[] {
  return stockList.pricesIncludeTax ? SHOP_GROUPS : [...LIST_GROUPS, ...SHOP_GROUPS];
}

function terms(shop: ShopProfile, stockList: StockList, usable: boolean): CostTerms {
  const { perHour, perMetre, perPierce, minimum } = shop.charges;
  const { packagingPerKit, labourPerHour } = stockList.selling;
  const rates = {
    perHour,
    perMetre,
    perPierce,
    ...(usable ? { packagingPerKit, labourPerHour } : {}),
    taxShare: taxShare(shop),
  };
  const stated = Object.entries(rates).filter(([, rate]) => rate !== undefined);
  return { rates: Object.fromEntries(stated), minimum, taxedGroups: taxedGroups(stockList) };
}

/** A share is a percentage shifted by two decimals; ten decimals hold any percentage a person writes. */
function taxShare(shop: ShopProfile): number {
  return toDecimals(shop.charges.taxPercent / 100, 10);
}

function taxLines(
  lines: readonly CostLine[],
  shop: ShopProfile,
  stockList: StockList,
  exponent: number,
): CostLine[] {
  const percent = shop.charges.taxPercent;
  if (percent === 0) return [];
  const groups = taxedGroups(stockList);
  const base = lines
    .filter((line) => groups.includes(line.group))
    .reduce((sum, line) => sum + (line.amount ?? 0), 0);
  const rate = taxShare(shop);
  const figures = {
    item: `tax ${percent} %`,
    quantity: Number(moneyText(base, exponent)),
    unit: shop.currency,
    rate,
  };
  return [pricedLine(exponent, "tax", figures, `charges.taxPercent on ${groups.join(", ")}`, "taxShare")];
}

function sumLines(lines: readonly CostLine[]): CostTotals {
  const groups = groupSums((group) =>
    lines.filter((line) => line.group === group).reduce((sum, line) => sum + (line.amount ?? 0), 0),
  );
  const total = COST_GROUPS.reduce((sum, group) => sum + groups[group], 0);
  const unpriced = lines.filter((line) => line.amount === undefined).length;
  return { groups, net: total - groups.tax, tax: groups.tax, total, unpriced };
}

function perKit(totals: CostTotals, kits: number, marginPercent: number | undefined): CostPerKit {
  return {
    groups: groupSums((group) => shared(totals.groups[group], kits)),
    total: shared(totals.total, kits),
    ...(marginPercent === undefined
      ? {}
      : { marginPercent, sellingPrice: priceAtMargin(totals.total, kits, marginPercent) }),
  };
}

function groupSums(sum: (group: CostGroup) => Money): Record<CostGroup, Money> {
  return Object.fromEntries(COST_GROUPS.map((group) => [group, sum(group)])) as Record<CostGroup, Money>;
}
