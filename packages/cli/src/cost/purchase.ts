import { decimalsOf, scaledInteger } from "./money.js";

/** Price of one pack from a quantity of packs on; holds for the whole quantity (all-units). */
export interface Tier {
  readonly from: number;
  readonly each: number;
}

/** A price of the stock list: the tiers, and whether a tier's price holds only from its quantity on. */
export type Price = number | readonly Tier[] | { readonly increments: readonly Tier[] };

/** One way to buy a thing: packs of a size, at tiers. */
export interface Offer {
  /** Pieces in a pack. */
  readonly pack: number;
  /** Ascending; the first tier's `from` is the least number of packs sold. */
  readonly tiers: readonly Tier[];
  /** Each tier's price holds only for the packs from its quantity on, not for the whole quantity. */
  readonly incremental?: boolean;
  /** Least packs in an order, beside the first tier. */
  readonly minimum?: number;
  /** Packs that can be had; no limit when absent. */
  readonly available?: number;
}

export interface OfferBought {
  readonly packs: number;
  /** Price of one pack at this quantity; with increments of the last one. */
  readonly each: number;
  /** With increments, the packs at each price. */
  readonly parts?: readonly { readonly packs: number; readonly each: number }[];
}

export interface Purchase {
  /** Same order as the offers. */
  readonly bought: readonly OfferBought[];
  readonly pieces: number;
  /** The least quantity that would do, when buying more costs less: why more is bought. */
  readonly dearer?: { readonly packs: number; readonly each: number };
}

/** Most states the exact search over several pack sizes may visit. */
const SEARCH_LIMIT = 20_000_000;

/** The tiers of a price of the stock list. */
export function tiersOf(price: Price): readonly Tier[] {
  if (typeof price === "number") return [{ from: 1, each: price }];
  return "increments" in price ? price.increments : price;
}

/** How a price of the stock list is offered. */
export function offerOf(price: Price): Pick<Offer, "tiers" | "incremental"> {
  const tiers = tiersOf(price);
  return typeof price === "object" && "increments" in price ? { tiers, incremental: true } : { tiers };
}

/** Price of one pack when `packs` are bought. */
export function tierPrice(tiers: readonly Tier[], packs: number): number {
  const tier = tiers.findLast((candidate) => candidate.from <= packs) ?? tiers[0];
  if (tier === undefined) throw new RangeError("an offer needs a price");
  return tier.each;
}

/**
 * The cheapest purchase of at least `need` pieces; of equally cheap ones the one with the fewest pieces.
 *
 * With all-units tiers a larger quantity can cost less than a smaller one; then the larger is bought. So the cost of
 * covering a need never falls when the need rises. `undefined` when the offers cannot cover the need.
 */
export function cheapestPurchase(need: number, offers: readonly Offer[]): Purchase | undefined {
  if (!Number.isSafeInteger(need) || need < 0)
    throw new RangeError(`a need must be a whole number, not ${need}`);
  if (need === 0)
    return bought(
      offers,
      offers.map(() => 0),
    );
  const scale = Math.max(...offers.flatMap((offer) => offer.tiers.map((tier) => decimalsOf(tier.each))));
  const single = cheapestSingle(need, offers, scale);
  if (offers.length === 1) return single;
  return better(single, cheapestMix(need, offers, scale), scale);
}

function cheapestSingle(need: number, offers: readonly Offer[], scale: number): Purchase | undefined {
  let best: Purchase | undefined;
  for (const [index, offer] of offers.entries()) {
    const least = Math.max(Math.ceil(need / offer.pack), leastPacks(offer));
    // With increments more never costs less.
    const larger = offer.incremental ? [] : offer.tiers.map((tier) => tier.from);
    const counts = [least, ...larger.filter((from) => from > least)];
    const plans = counts
      .filter((packs) => packs <= (offer.available ?? Number.POSITIVE_INFINITY))
      .map((packs) =>
        bought(
          offers,
          offers.map((_, other) => (other === index ? packs : 0)),
        ),
      );
    const plain = plans[0];
    let cheapest = plain;
    for (const plan of plans) cheapest = better(cheapest, plan, scale);
    if (cheapest === undefined || plain === undefined) continue;
    const line = plain.bought[index];
    const flagged: Purchase =
      cheapest === plain || line === undefined ? cheapest : { ...cheapest, dearer: line };
    best = better(best, flagged, scale);
  }
  return best;
}

/**
 * Several pack sizes: for every choice of one tier (or nothing) of each offer, the tier's least quantity is bought and the
 * rest of the need is covered at that tier's price by an unbounded knapsack over pieces. The best plan's own choice of
 * tiers is among them, so the least of all true costs is the optimum. The cost of increments is the least of the straight
 * lines through their steps, so there each tier's price is tried from the least quantity on.
 */
function cheapestMix(need: number, offers: readonly Offer[], scale: number): Purchase | undefined {
  if (offers.some((offer) => offer.available !== undefined)) return undefined;
  const step = offers.reduce((divisor, offer) => greatestCommonDivisor(divisor, offer.pack), 0);
  const states = Math.ceil(need / step) + 1;
  const ways = offers.reduce((product, { tiers }) => product * (tiers.length + 1), 1);
  if (ways * states * offers.length > SEARCH_LIMIT) return undefined;
  const choices = tierChoices(offers);
  let best: Purchase | undefined;
  for (const choice of choices) {
    const counts = offers.map((offer, index) => {
      const tier = choice[index];
      if (tier === undefined) return 0;
      return offer.incremental ? leastPacks(offer) : Math.max(tier.from, leastPacks(offer));
    });
    const covered = counts.reduce((sum, packs, index) => sum + packs * (offers[index]?.pack ?? 0), 0);
    const rest = Math.max(0, Math.ceil((need - covered) / step));
    const extra = coverRest(rest, step, offers, choice, scale);
    if (extra === undefined) continue;
    const total = counts.map((packs, index) => packs + (extra[index] ?? 0));
    best = better(best, bought(offers, total), scale);
  }
  return best;
}

function coverRest(
  rest: number,
  step: number,
  offers: readonly Offer[],
  choice: readonly (Tier | undefined)[],
  scale: number,
): number[] | undefined {
  const cost = new Float64Array(rest + 1).fill(Number.POSITIVE_INFINITY);
  const last = new Int32Array(rest + 1).fill(-1);
  cost[0] = 0;
  const packs = offers.map((offer, index) => ({
    size: offer.pack / step,
    each: choice[index] === undefined ? Number.POSITIVE_INFINITY : scaledInteger(choice[index].each, scale),
  }));
  for (let pieces = 1; pieces <= rest; pieces++) {
    for (const [index, pack] of packs.entries()) {
      const candidate = (cost[Math.max(0, pieces - pack.size)] ?? 0) + pack.each;
      if (candidate < (cost[pieces] ?? 0)) {
        cost[pieces] = candidate;
        last[pieces] = index;
      }
    }
  }
  if (!Number.isFinite(cost[rest])) return undefined;
  const counts = offers.map(() => 0);
  for (let pieces = rest; pieces > 0; ) {
    const index = last[pieces] ?? 0;
    counts[index] = (counts[index] ?? 0) + 1;
    pieces = Math.max(0, pieces - (packs[index]?.size ?? rest));
  }
  return counts;
}

function tierChoices(offers: readonly Offer[]): (Tier | undefined)[][] {
  let choices: (Tier | undefined)[][] = [[]];
  for (const offer of offers) {
    const options = [undefined, ...offer.tiers];
    choices = choices.flatMap((choice) => options.map((option) => [...choice, option]));
  }
  return choices.filter((choice) => choice.some((tier) => tier !== undefined));
}

function leastPacks(offer: Offer): number {
  return Math.max(1, offer.minimum ?? 1, offer.tiers[0]?.from ?? 1);
}

function bought(offers: readonly Offer[], counts: readonly number[]): Purchase {
  const lines = offers.map((offer, index) => {
    const packs = counts[index] ?? 0;
    const line = { packs, each: tierPrice(offer.tiers, packs) };
    return offer.incremental ? { ...line, parts: incrementsOf(offer.tiers, packs) } : line;
  });
  const pieces = lines.reduce((sum, line, index) => sum + line.packs * (offers[index]?.pack ?? 0), 0);
  return { bought: lines, pieces };
}

/** The packs at each price when a tier's price holds only from its quantity on; below the first tier its price holds too. */
function incrementsOf(tiers: readonly Tier[], packs: number): { packs: number; each: number }[] {
  return tiers.flatMap(({ from, each }, index) => {
    const start = index === 0 ? 0 : from - 1;
    const end = Math.min(packs, (tiers[index + 1]?.from ?? Number.POSITIVE_INFINITY) - 1);
    return end > start ? [{ packs: end - start, each }] : [];
  });
}

/** The prices a purchase is made of: one, or with increments one for each step. */
export function partsOf(bought: OfferBought): readonly { readonly packs: number; readonly each: number }[] {
  return bought.parts ?? [bought];
}

function better(a: Purchase | undefined, b: Purchase | undefined, scale: number): Purchase | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  const difference = scaledCost(b, scale) - scaledCost(a, scale);
  if (difference !== 0) return difference < 0 ? b : a;
  return b.pieces < a.pieces ? b : a;
}

function scaledCost(purchase: Purchase, scale: number): number {
  return purchase.bought
    .flatMap(partsOf)
    .reduce((sum, part) => sum + part.packs * scaledInteger(part.each, scale), 0);
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
