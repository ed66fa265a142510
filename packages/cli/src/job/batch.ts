import type { Plate } from "@keelcut/geometry";
import {
  type BatchJob,
  type BatchPlan,
  type BatchStock,
  type NestControl,
  type NestJob,
  type NestResult,
  planBatch,
  type Stock,
} from "@keelcut/nesting";
import { solveModel } from "../cost/lengths/linear-model.js";
import { stockListId } from "../cost/nest-stock.js";
import { tiersOf } from "../cost/purchase.js";
import type { ShopProfile } from "../input/shop-profile.js";
import type { StockList } from "../input/stock-list.js";

export interface BatchFacts {
  readonly plates: readonly Plate[];
  readonly stock: StockList | undefined;
  readonly shop: ShopProfile | undefined;
  readonly maxLayouts: number | undefined;
}

/** A packing job with what planning many kits asks beside: the mix of a kit, prices by quantity, the shop's handling. */
export function batchJob(job: NestJob, { plates, stock, shop, maxLayouts }: BatchFacts): BatchJob {
  const perKit = new Map(plates.map((plate) => [plate.id, plate.count]));
  const sameMoney = shop !== undefined && stock !== undefined && shop.currency === stock.currency;
  const minute = sameMoney ? (shop.charges.perHour ?? 0) / 60 : 0;
  return {
    ...job,
    parts: job.parts.map((part) => ({ ...part, perKit: perKit.get(part.id) ?? 1 })),
    stock: job.stock.map((piece) => withTiers(piece, stock)),
    costPerSheet: minute * (shop?.charges.loadPerSheet ?? 0),
    costPerLayout: minute * (shop?.charges.setupPerLayout ?? 0),
    ...(maxLayouts === undefined ? {} : { maxLayouts }),
  };
}

/** The price list of a piece that is bought; what is at hand has none. */
function withTiers(piece: Stock, list: StockList | undefined): BatchStock {
  const entry = list?.sheets.find((sheet) => sheet.id === piece.id);
  if (entry === undefined || piece.id !== stockListId(piece.id)) return piece;
  const least = entry.minimumOrder ?? 1;
  const tiers = tiersOf(entry.price);
  const sold = tiers.filter((_, index) => (tiers[index + 1]?.from ?? Number.POSITIVE_INFINITY) > least);
  return { ...piece, tiers: sold.map((tier) => ({ ...tier, from: Math.max(tier.from, least) })) };
}

/** Plans the job and states the plan as a layout of the packing job it came from. */
export async function planned(
  job: NestJob,
  batch: BatchJob,
  control: { readonly signal: AbortSignal; readonly onProgress: NonNullable<NestControl["onProgress"]> },
): Promise<{ result: NestResult; plan: BatchPlan }> {
  const plan = await planBatch(batch, {
    solver: solveModel,
    signal: control.signal,
    onProgress: (best) => control.onProgress(layoutOf(job, best)),
  });
  return { result: layoutOf(job, plan), plan };
}

function layoutOf(job: NestJob, plan: BatchPlan): NestResult {
  const price = new Map(job.stock.map((stock) => [stock.id, stock.cost]));
  const { sheets, unplaced, steps } = plan;
  const cost = sheets.reduce((sum, sheet) => sum + sheet.times * (price.get(sheet.stock) ?? 0), 0);
  return { sheets, unplaced, cost, yield: plan.yield, steps };
}
