import type { Finding } from "@keelcut/geometry";
import type { NestPart, Sheet } from "@keelcut/nesting";
import type { BridgeOptions } from "../bridges/bridge-places.js";
import type { ShopProfile } from "../input/shop-profile.js";
import type { CostGroup, CostLine, CuttingSheet, SharedRate } from "./cost-estimate.js";
import { type CuttingRate, cuttingRate, type Filled } from "./feed.js";
import { costNote, missingPrice, noFeed } from "./findings.js";
import { pricedLine, unpricedLine } from "./line.js";
import { type Money, moneyText, toDecimals } from "./money.js";
import { stockListId } from "./nest-stock.js";
import { type PlateProgram, plateProgram } from "./plate-program.js";
import type { NestedMaterial } from "./sheet-cost.js";
import { sheetWork } from "./sheet-work.js";

export interface ShopCost {
  readonly lines: readonly CostLine[];
  readonly cutting: readonly CuttingSheet[];
  readonly findings: readonly Finding[];
  readonly filled: readonly Filled[];
  /** How each material's feed follows from the profile. */
  readonly feeds: readonly Filled[];
}

/** Hours on a line are given to a millionth (3.6 ms), metres to a millimetre. */
const HOUR_DECIMALS = 6;
const METRE_DECIMALS = 3;

/** What the cutting shop does and charges for all materials of a job, its minimum charge included. */
export function shopCost(
  nests: readonly NestedMaterial[],
  shop: ShopProfile,
  exponent: number,
  bridges?: BridgeOptions,
): ShopCost {
  const cutting: CuttingSheet[] = [];
  const findings: Finding[] = [];
  const filled: Filled[] = [];
  const feeds: Filled[] = [];
  for (const nest of nests) {
    const rate = cuttingRate(shop, nest.material, nest.thickness);
    const place = `${nest.material} ${nest.thickness} mm`;
    if (rate === undefined) findings.push(noFeed(place, nest.material, shop));
    else feeds.push({ what: `${place}: feed`, value: rate.from, source: "feeds in the shop profile" });
    filled.push(...(rate?.filled ?? []));
    const programs = platePrograms(nest, rate, shop, bridges);
    findings.push(...unfitNotes(programs, shop));
    const context = {
      material: nest.material,
      thickness: nest.thickness,
      parts: partsById(nest.parts),
      programs,
      shop,
    };
    for (const { sheet, layout } of mergedLayouts(nest.result.sheets)) {
      cutting.push(sheetWork(sheet, { ...context, layout }));
    }
  }
  const lines = [
    ...cutting.flatMap((sheet) => {
      const comparedAs = `${sheet.material} ${sheet.thickness} mm`;
      return cuttingLines(sheet, shop, exponent).map((line) => ({ ...line, comparedAs }));
    }),
    ...handlingLines(cutting, shop, exponent),
    ...setupLines(cutting, shop, exponent),
  ];
  findings.push(...missingRates(lines, shop));
  const topUp = minimumLine(lines, shop, exponent);
  return { lines: topUp === undefined ? lines : [...lines, topUp], cutting, findings, filled, feeds };
}

/** The same layout on sheets at hand and on bought ones is one layout, set up once, with the number of its first file. */
function mergedLayouts(sheets: readonly Sheet[]): { sheet: Sheet; layout: number }[] {
  const merged = new Map<string, { sheet: Sheet; layout: number }>();
  for (const [index, sheet] of sheets.entries()) {
    const stock = stockListId(sheet.stock);
    const key = JSON.stringify([stock, sheet.placements]);
    const before = merged.get(key);
    const times = (before?.sheet.times ?? 0) + sheet.times;
    merged.set(key, { sheet: { ...sheet, stock, times }, layout: before?.layout ?? index + 1 });
  }
  return [...merged.values()];
}

function platePrograms(
  nest: NestedMaterial,
  rate: CuttingRate | undefined,
  shop: ShopProfile,
  bridges: BridgeOptions | undefined,
): Map<string, PlateProgram> {
  const used = new Set(nest.result.sheets.flatMap((sheet) => sheet.placements.map((placed) => placed.part)));
  const parts = nest.parts.filter((part) => used.has(part.id));
  return new Map(
    parts.map(({ id, region }) => {
      const held = bridges && { bridges: bridges.of(id), gap: bridges.gap };
      return [id, plateProgram(region, nest.thickness, rate, shop, held)];
    }),
  );
}

function partsById(parts: readonly NestPart[]): Map<string, NestPart> {
  return new Map(parts.map((part) => [part.id, part]));
}

/** By the metre when the shop charges by the metre, else by the hour of machine time. */
function cuttingLines(sheet: CuttingSheet, shop: ShopProfile, exponent: number): CostLine[] {
  const { perMetre, perPierce, perHour } = shop.charges;
  const item = `cut ${sheet.material} ${sheet.thickness} mm, layout ${sheet.layout}`;
  const lines: CostLine[] = [];
  if (perMetre !== undefined) {
    const metres = {
      item,
      quantity: toDecimals(sheet.metres.drawn * sheet.times, METRE_DECIMALS),
      unit: "m",
    };
    const from = `${sheet.times} x ${sheet.metres.drawn.toFixed(METRE_DECIMALS)} m drawn; charges.perMetre`;
    lines.push(pricedLine(exponent, "cutting", { ...metres, rate: perMetre }, from, "perMetre"));
  } else if (sheet.minutes === undefined) {
    const metres = {
      item,
      quantity: toDecimals(sheet.metres.drawn * sheet.times, METRE_DECIMALS),
      unit: "m",
    };
    lines.push(unpricedLine("cutting", metres, `no feed for ${sheet.material} ${sheet.thickness} mm`));
  } else {
    const from = `${sheet.times} x ${sheet.minutes.machine.toFixed(3)} min; charges.perHour`;
    const hours = { item, minutes: sheet.minutes.machine * sheet.times };
    lines.push(hourLine("cutting", hours, perHour, exponent, from, "perHour"));
  }
  if (perPierce !== undefined) {
    const figures = {
      item: `start cuts of layout ${sheet.layout}, ${sheet.material} ${sheet.thickness} mm`,
      quantity: sheet.starts * sheet.times,
      unit: "start",
      rate: perPierce,
    };
    lines.push(
      pricedLine(
        exponent,
        "cutting",
        figures,
        `${sheet.times} x ${sheet.starts} starts; charges.perPierce`,
        "perPierce",
      ),
    );
  }
  return lines;
}

function handlingLines(cutting: readonly CuttingSheet[], shop: ShopProfile, exponent: number): CostLine[] {
  const { loadPerSheet, perPlate, perHour } = shop.charges;
  const sheets = cutting.reduce((sum, sheet) => sum + sheet.times, 0);
  const plates = cutting.reduce((sum, sheet) => sum + sheet.times * sheet.plates, 0);
  const loading = { item: "load and unload sheets", minutes: sheets * loadPerSheet };
  const freeing = { item: "free and clean plates", minutes: (plates * perPlate) / 60 };
  const loadFrom = `${sheets} sheets x ${loadPerSheet} min; charges.loadPerSheet, perHour`;
  const freeFrom = `${plates} plates x ${perPlate} s; charges.perPlate, perHour`;
  return [
    ...(loading.minutes > 0 ? [hourLine("handling", loading, perHour, exponent, loadFrom, "perHour")] : []),
    ...(freeing.minutes > 0 ? [hourLine("handling", freeing, perHour, exponent, freeFrom, "perHour")] : []),
  ];
}

function setupLines(cutting: readonly CuttingSheet[], shop: ShopProfile, exponent: number): CostLine[] {
  const { setupPerJob, setupPerLayout, fixedPerJob, perHour } = shop.charges;
  if (cutting.length === 0) return [];
  const lines: CostLine[] = [];
  if (setupPerJob > 0) {
    const hours = { item: "set up the job", minutes: setupPerJob };
    lines.push(hourLine("setup", hours, perHour, exponent, "charges.setupPerJob, perHour", "perHour"));
  }
  if (setupPerLayout > 0) {
    const hours = { item: "set up layouts", minutes: cutting.length * setupPerLayout };
    const from = `${cutting.length} layouts x ${setupPerLayout} min; charges.setupPerLayout, perHour`;
    lines.push(hourLine("setup", hours, perHour, exponent, from, "perHour"));
  }
  if (fixedPerJob > 0) {
    const figures = { item: "fixed charge", quantity: 1, unit: "job", rate: fixedPerJob };
    lines.push(pricedLine(exponent, "setup", figures, "charges.fixedPerJob"));
  }
  return lines;
}

function hourLine(
  group: CostGroup,
  work: { readonly item: string; readonly minutes: number },
  perHour: number | undefined,
  exponent: number,
  from: string,
  sharedRate: SharedRate,
): CostLine {
  const figures = { item: work.item, quantity: toDecimals(work.minutes / 60, HOUR_DECIMALS), unit: "h" };
  if (perHour === undefined) return unpricedLine(group, figures, from);
  return pricedLine(exponent, group, { ...figures, rate: perHour }, from, sharedRate);
}

/** What lifts the shop's own work (material apart) to its minimum charge. */
function minimumLine(lines: readonly CostLine[], shop: ShopProfile, exponent: number): CostLine | undefined {
  const { minimum } = shop.charges;
  if (minimum === 0 || lines.length === 0) return undefined;
  const work: Money = lines.reduce((sum, line) => sum + (line.amount ?? 0), 0);
  const least = pricedLine(exponent, "minimum", { item: "", quantity: 1, unit: "job", rate: minimum }, "");
  const missing = (least.amount ?? 0) - work;
  if (missing <= 0) return undefined;
  const rate = Number(moneyText(missing, exponent));
  const from = `charges.minimum ${minimum} less ${moneyText(work, exponent)} of cutting, handling and set-up`;
  return pricedLine(
    exponent,
    "minimum",
    { item: "up to the minimum charge", quantity: 1, unit: "job", rate },
    from,
  );
}

function missingRates(lines: readonly CostLine[], shop: ShopProfile): Finding[] {
  const hours = lines.filter((line) => line.unit === "h" && line.rate === undefined);
  if (hours.length === 0) return [];
  const what = [...new Set(hours.map((line) => line.item))].slice(0, 3).join("; ");
  const message = `no hourly rate for: ${what}. Add perHour under charges in the shop profile`;
  return [missingPrice(shop.name, message)];
}

function unfitNotes(programs: ReadonlyMap<string, PlateProgram>, shop: ShopProfile): Finding[] {
  return [...programs].flatMap(([part, program]) =>
    program.unfit.map((contour) => {
      const where = contour === "outline" ? "outline" : `opening ${contour}`;
      const message = `${where}: a kerf of ${shop.cutting.kerf} mm does not fit in; its time is taken from the drawn line, also where it is drilled`;
      return costNote("cost.kerf-too-wide", part, message, "the cutter cannot follow this contour");
    }),
  );
}
