import type { Plate } from "@keelcut/geometry";
import {
  type BatchJob,
  type BatchPlan,
  type BatchStock,
  type NestControl,
  type NestJob,
  type NestResult,
  planBatches,
  type Stock,
  withSurplus,
} from "@keelcut/nesting";
import { solveModel } from "../cost/lengths/linear-model.js";
import { stockListId } from "../cost/nest-stock.js";
import { offerOf } from "../cost/purchase.js";
import type { ShopProfile } from "../input/shop-profile.js";
import type { StockList } from "../input/stock-list.js";

/** Threads of the search beside the main one: as many as it can use. They do not change what it finds. */
const SEARCH_THREADS = 2;

export interface BatchFacts {
  readonly plates: readonly Plate[];
  readonly stock: StockList | undefined;
  readonly shop: ShopProfile | undefined;
  readonly maxLayouts: number | undefined;
  readonly surplusPercent: number | undefined;
}

/** A packing job with what planning many kits asks beside: the mix of a kit, prices by quantity, the shop's handling. */
export function batchJob(job: NestJob, facts: BatchFacts): BatchJob {
  const { plates, stock, shop, maxLayouts, surplusPercent } = facts;
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
    ...(surplusPercent === undefined ? {} : { surplusPercent }),
    ...(stock?.offcutWorth === undefined ? {} : { rests: stock.offcutWorth }),
  };
}

/** The price list of a piece that is bought; what is at hand has none. Increments are planned at their first price. */
function withTiers(piece: Stock, list: StockList | undefined): BatchStock {
  const entry = list?.sheets.find((sheet) => sheet.id === piece.id);
  if (entry === undefined || piece.id !== stockListId(piece.id)) return piece;
  const least = entry.minimumOrder ?? 1;
  const { tiers, incremental } = offerOf(entry.price);
  if (incremental) {
    const [first] = tiers;
    const from = Math.max(least, first?.from ?? 1);
    return { ...piece, tiers: [{ from, each: first?.each ?? 0 }], fallsFurther: true };
  }
  const sold = tiers.filter((_, index) => (tiers[index + 1]?.from ?? Number.POSITIVE_INFINITY) > least);
  return { ...piece, tiers: sold.map((tier) => ({ ...tier, from: Math.max(tier.from, least) })) };
}

/** A packing job and its plan's form, for one number of kits. */
export interface BatchGroup {
  readonly job: NestJob;
  readonly batch: BatchJob;
}

export interface Planned {
  /** Asks for the surplus too that the plan makes. */
  readonly job: NestJob;
  readonly result: NestResult;
  readonly plan: BatchPlan;
}

/** Plans the same plates for several numbers of kits from one search, each plan stated as a layout of its packing job. */
export async function planned(
  groups: readonly BatchGroup[],
  control: { readonly signal: AbortSignal; readonly onProgress: NonNullable<NestControl["onProgress"]> },
): Promise<Planned[]> {
  const [first] = groups;
  if (first === undefined) return [];
  const demands = groups.map(({ batch }) => batch.parts.map((part) => part.demand));
  const plans = await planBatches(first.batch, demands, {
    solver: solveModel,
    signal: control.signal,
    workers: SEARCH_THREADS,
    onProgress: (best) => control.onProgress(layoutOf(first.job, best)),
  });
  return plans.map((plan, index) => {
    const job = withSurplus((groups[index] ?? first).job, plan.surplus);
    return { job, result: layoutOf(job, plan), plan };
  });
}

function layoutOf(job: NestJob, plan: BatchPlan): NestResult {
  const price = new Map(job.stock.map((stock) => [stock.id, stock.cost]));
  const { sheets, unplaced, steps } = plan;
  const cost = sheets.reduce((sum, sheet) => sum + sheet.times * (price.get(sheet.stock) ?? 0), 0);
  return { sheets, unplaced, cost, yield: plan.yield, steps };
}
