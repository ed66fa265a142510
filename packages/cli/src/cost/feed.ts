import { routerFeed } from "@keelcut/geometry";
import type { ShopProfile } from "../input/shop-profile.js";

/** How one sheet material of one thickness is cut; mm, mm/min, s. */
export interface CuttingRate {
  readonly feed: number;
  readonly passes: number;
  /** Feed into the material (router). */
  readonly plungeFeed: number | undefined;
  /** Time to pierce (laser, waterjet). */
  readonly pierceSeconds: number | undefined;
  /** How the feed follows from the profile, in numbers. */
  readonly from: string;
  /** What the profile left open and was filled in. */
  readonly filled: readonly Filled[];
}

export interface Filled {
  readonly what: string;
  readonly value: string;
  readonly source: string;
}

/** Share of the feed a router plunges with when the profile is silent: one third to one half is common practice. */
const PLUNGE_SHARE = 1 / 3;
/** Upper end of 0.1 to 0.5 s for laser in plastics, lower half of 2 to 10 s for waterjet; common practice, from memory. */
const PIERCE_SECONDS = { laser: 0.5, waterjet: 5 } as const;

/** The profile's line for this material and thickness: the one for exactly this thickness before one for any. */
export function cuttingRate(shop: ShopProfile, material: string, thickness: number): CuttingRate | undefined {
  const lines = shop.feeds.filter((line) => line.material === material);
  const line =
    lines.find((candidate) => candidate.thickness === thickness) ??
    lines.find((candidate) => candidate.thickness === undefined);
  if (line === undefined) return undefined;
  const feed = feedOf(line);
  if (feed === undefined) return undefined;
  const filled: Filled[] = [];
  const place = `${material} ${thickness} mm`;
  if (line.depthPerPass === undefined) {
    filled.push({
      what: `${place}: passes`,
      value: "1",
      source: "no depthPerPass in the shop profile: whole thickness at once",
    });
  }
  const { method } = shop.cutting;
  let { plungeFeed, pierceSeconds } = line;
  if (method === "router" && plungeFeed === undefined) {
    plungeFeed = feed.value * PLUNGE_SHARE;
    filled.push({
      what: `${place}: plunge feed`,
      value: `${Math.round(plungeFeed)} mm/min`,
      source: "a third of the feed; common practice is a third to a half",
    });
  }
  if (method !== "router" && pierceSeconds === undefined) {
    pierceSeconds = PIERCE_SECONDS[method];
    filled.push({
      what: `${place}: pierce time`,
      value: `${pierceSeconds} s`,
      source: `common practice for a ${method} in plastics`,
    });
  }
  // The small allowance keeps 10 mm in passes of 2.5 mm at four when the division is a hair above.
  const passes =
    line.depthPerPass === undefined ? 1 : Math.max(1, Math.ceil(thickness / line.depthPerPass - 1e-9));
  return {
    feed: feed.value,
    passes,
    plungeFeed: method === "router" ? plungeFeed : undefined,
    pierceSeconds: method === "router" ? undefined : pierceSeconds,
    from: `${feed.from}, ${passes} ${passes === 1 ? "pass" : "passes"}`,
    filled,
  };
}

function feedOf(line: ShopProfile["feeds"][number]): { value: number; from: string } | undefined {
  if (line.feed !== undefined) return { value: line.feed, from: `feed ${line.feed} mm/min` };
  const { spindle, flutes, chipLoad } = line;
  if (spindle === undefined || flutes === undefined || chipLoad === undefined) return undefined;
  const value = routerFeed(spindle, flutes, chipLoad);
  return { value, from: `feed ${spindle} x ${flutes} x ${chipLoad} = ${Number(value.toFixed(3))} mm/min` };
}
