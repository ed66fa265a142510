import type { Finding } from "@keelcut/geometry";
import type { ShopProfile } from "../input/shop-profile.js";

const SOURCE = "arithmetic of the stock list and the shop profile";

/** A figure that cannot be worked out: what lacks a price, and where to add it. */
export function missingPrice(place: string, message: string): Finding {
  return {
    id: "cost.no-price",
    severity: "warning",
    place,
    message,
    why: "a line without a price is missing from the total, so the job costs more than the total says",
    source: SOURCE,
  };
}

/** A purchase that is larger than needed because it costs less. */
export function largerIsCheaper(
  place: string,
  wanted: { readonly count: number; readonly money: string },
  taken: { readonly count: number; readonly money: string },
  unit: string,
): Finding {
  return {
    id: "cost.larger-is-cheaper",
    severity: "note",
    place,
    message: `${wanted.count} ${unit} would do for ${wanted.money}; ${taken.count} cost ${taken.money}, so ${taken.count} are bought`,
    measured: wanted.count,
    limit: taken.count,
    unit,
    why: "a tier's price holds for the whole quantity, so just below a tier more can cost less",
    source: SOURCE,
  };
}

/** More is needed than can be had. */
export function stockShort(place: string, message: string): Finding {
  return {
    id: "cost.stock-short",
    severity: "error",
    place,
    message,
    why: "the job cannot be made from this stock list",
    source: SOURCE,
  };
}

/** Pieces that no length on sale yields, mm. */
export function lengthShort(item: string, pieces: readonly number[], longest: number): Finding {
  const message = `pieces of ${pieces.join(", ")} mm are longer than the longest length sold, ${longest} mm`;
  return { ...stockShort(item, message), measured: Math.max(...pieces), limit: longest };
}

/** The shop profile does not say how fast a material is cut. */
export function noFeed(
  place: string,
  material: string,
  { feeds, charges }: Pick<ShopProfile, "feeds" | "charges">,
): Finding {
  const lines = feeds.filter((line) => line.material === material);
  const cure =
    lines.length === 0
      ? `add a line with material ${material} (feed, or spindle, flutes and chipLoad) under feeds in the shop profile`
      : `its line under feeds in the shop profile lacks feed, or one of spindle, flutes and chipLoad, or is for another thickness`;
  const message = `no feed is given: ${cure}`;
  if (charges.perMetre === undefined) return missingPrice(place, message);
  return costNote(
    "cost.no-feed",
    place,
    message,
    "the shop charges by the metre, but machine hours lack this material",
  );
}

/** Something the estimate stands on that a person should know. */
export function costNote(id: string, place: string, message: string, why: string): Finding {
  return { id, severity: "note", place, message, why, source: SOURCE };
}

/** Prices in two currencies cannot be added. */
export function currencyConflict(shop: string, stock: string): Finding {
  return {
    id: "cost.currency",
    severity: "error",
    place: "stock list",
    message: `the stock list is priced in ${stock}, the shop profile in ${shop}; its lines are left without a price. Give both in one currency`,
    why: "amounts in two currencies cannot be added without a rate of exchange",
    source: SOURCE,
  };
}
