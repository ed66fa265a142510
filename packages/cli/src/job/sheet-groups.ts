import { bounds, type Finding, type Plate, type SheetMaterial } from "@keelcut/geometry";
import type { BatchJob, NestJob, Stock } from "@keelcut/nesting";
import { nestStock } from "../cost/index.js";
import type { FrameInput } from "../input/read-frame.js";
import type { ShopProfile } from "../input/shop-profile.js";
import type { StockList } from "../input/stock-list.js";
import { batchJob } from "./batch.js";
import { demandOf, type Quantity } from "./demand.js";
import { tooLarge } from "./too-large.js";

/** The plates of one material and thickness, to be laid on the same stock. */
export interface SheetGroup {
  readonly material: SheetMaterial;
  readonly plates: readonly Plate[];
  readonly job: NestJob;
  /** The same as a plan, for several kits, limited layouts, an allowed surplus, or where prices alone do not tell what is cheap. */
  readonly batch?: BatchJob;
}

export interface SheetGroups {
  readonly groups: readonly SheetGroup[];
  readonly findings: readonly Finding[];
}

export interface SearchWish {
  readonly seed: number;
  /** Seconds for the whole job; a fixed number of steps when absent, so that every machine finds the same. */
  readonly seconds?: number;
  /** Most distinct layouts for each material and thickness. */
  readonly maxLayouts?: number;
  /** Most copies of a plate beyond the demand, percent of it, kept where the layouts give them; none when absent. */
  readonly surplusPercent?: number;
}

/** Largest distance between a true arc and the chords the search packs with, mm: a fiftieth of the usual safety gap. */
const chordError = 0.04;

/** One packing job for each material and thickness among the plates that are cut, in the order the plates come. */
export function sheetGroups(
  plates: readonly Plate[],
  input: FrameInput,
  quantity: Quantity,
  wish: SearchWish,
): SheetGroups {
  const { stock, shop } = input;
  const byMaterial = platesByMaterial(plates);
  const findings: Finding[] = [];
  const groups = byMaterial.flatMap((group): SheetGroup[] => {
    const found = usableStock(group.material, stock, shop);
    findings.push(...found.findings);
    if (found.stock.length === 0) return [];
    findings.push(...tooLarge(group.plates, found.stock, input.parameters.cutting.edgeMargin));
    const job = nestJob(group.plates, found.stock, input, quantity, wish, byMaterial.length);
    const { maxLayouts, surplusPercent } = wish;
    const facts = { plates: group.plates, stock, shop, maxLayouts, surplusPercent };
    const batch = batchJob(job, facts);
    const isAsked = quantity.kits > 1 || maxLayouts !== undefined || surplusPercent !== undefined;
    return [isAsked || costsByChoice(batch) ? { ...group, job, batch } : { ...group, job }];
  });
  return { groups, findings };
}

/**
 * True where sheets taken at their single prices could cost more than others: some are sold from a number on only, or each
 * sheet is handled for money and several are free, so that small offcuts can be dearer than the sheet they save.
 */
function costsByChoice({ stock, costPerSheet = 0 }: BatchJob): boolean {
  const soldFrom = stock.some(({ tiers }) => (tiers?.[0]?.from ?? 1) > 1);
  const free = stock.filter(({ cost }) => cost === 0);
  const pieces = free.reduce((sum, { available }) => sum + (available === "unlimited" ? 0 : available), 0);
  return soldFrom || (costPerSheet > 0 && pieces > 1 && free.length < stock.length);
}

function platesByMaterial(plates: readonly Plate[]): { material: SheetMaterial; plates: Plate[] }[] {
  const groups = new Map<string, { material: SheetMaterial; plates: Plate[] }>();
  for (const plate of plates) {
    if (plate.made !== "cut") continue;
    const { material, thickness } = plate.sheet;
    const key = `${material} ${thickness}`;
    const group = groups.get(key) ?? { material: plate.sheet, plates: [] };
    group.plates.push(plate);
    groups.set(key, group);
  }
  return [...groups.values()];
}

function nestJob(
  plates: readonly Plate[],
  stock: readonly Stock[],
  input: FrameInput,
  quantity: Quantity,
  wish: SearchWish,
  shares: number,
): NestJob {
  const { clearance, edgeMargin } = input.parameters.cutting;
  return {
    parts: plates.map((plate) => ({
      id: plate.id,
      region: plate.region,
      demand: demandOf(plate, quantity),
      rotations: plate.rotations,
      mirrorable: plate.mirrorable,
    })),
    stock,
    clearance,
    edgeMargin,
    chordError,
    seed: wish.seed,
    effort: wish.seconds === undefined ? {} : { seconds: wish.seconds / shares },
  };
}

function usableStock(
  { material, thickness }: SheetMaterial,
  list: StockList | undefined,
  shop: ShopProfile | undefined,
): { stock: readonly Stock[]; findings: readonly Finding[] } {
  const place = `${material} ${thickness} mm`;
  const all = list === undefined ? [] : nestStock(list, material, thickness);
  if (all.length === 0) return { stock: [], findings: [noStock(place, material, list)] };
  const stock = all.filter((each) => fitsBed(each, shop));
  const findings = all
    .filter((each) => !stock.includes(each))
    .map((each) => tooLargeForBed(each, place, shop, stock.length === 0 ? "error" : "warning"));
  return { stock, findings };
}

/** A sheet may lie on the bed either way round. */
function fitsBed(stock: Stock, shop: ShopProfile | undefined): boolean {
  const box = bounds(stock.outline);
  const [length, width] = [box.maxX - box.minX, box.maxY - box.minY];
  const bedLength = shop?.limits.sheetLength ?? Number.POSITIVE_INFINITY;
  const bedWidth = shop?.limits.sheetWidth ?? Number.POSITIVE_INFINITY;
  return (length <= bedLength && width <= bedWidth) || (length <= bedWidth && width <= bedLength);
}

function noStock(place: string, material: string, list: StockList | undefined): Finding {
  const entries = [...(list?.sheets ?? []), ...(list?.offcuts ?? [])];
  const others = [...new Set(entries.map((each) => `${each.material} ${each.thickness}`))];
  const same = entries.filter((each) => each.material === material);
  const thicknesses = [...new Set(same.map((each) => each.thickness))].join(", ");
  const right =
    same.length > 0
      ? `of ${material} it has ${thicknesses} mm only`
      : others.length > 0
        ? `it has ${others.join(" mm, ")} mm`
        : "it has no sheets";
  return {
    id: "stock.none",
    severity: "error",
    place,
    message:
      list === undefined
        ? `no stock list is named: add stock: stock.yaml to the frame file`
        : `the stock list has no ${place} sheet or offcut; ${right}`,
    why: "plates can only be laid on a sheet of their own material and thickness",
    source: "stock list",
  };
}

function tooLargeForBed(
  stock: Stock,
  place: string,
  shop: ShopProfile | undefined,
  severity: Finding["severity"],
): Finding {
  const box = bounds(stock.outline);
  const size = `${box.maxX - box.minX} x ${box.maxY - box.minY}`;
  const bed = `${shop?.limits.sheetLength ?? "any"} x ${shop?.limits.sheetWidth ?? "any"}`;
  return {
    id: "stock.larger-than-bed",
    severity,
    place,
    message: `sheet ${stock.id} of ${size} mm does not fit the machine's bed of ${bed} mm and is left out`,
    why: "the machine cannot hold it",
    source: "shop profile, limits",
  };
}
