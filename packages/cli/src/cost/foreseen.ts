import type { Finding, Frame } from "@keelcut/geometry";
import type { ShopProfile } from "../input/shop-profile.js";
import type { StockList } from "../input/stock-list.js";
import { cuttingRate } from "./feed.js";
import { lengthShort, noFeed } from "./findings.js";

/** What an estimate will say however the plates are laid: materials without a feed, pieces longer than what is sold. */
export function foreseenFindings(
  frame: Frame,
  shop: ShopProfile | undefined,
  stockList: StockList,
): readonly Finding[] {
  const sheets = new Map(
    frame.plates
      .filter(({ made }) => made === "cut")
      .map(({ sheet: { material, thickness } }) => [`${material} ${thickness} mm`, { material, thickness }]),
  );
  const items = [...new Set(frame.lengths.map(({ item }) => item))];
  return [
    ...[...sheets].flatMap(([place, { material, thickness }]) =>
      shop !== undefined && cuttingRate(shop, material, thickness) === undefined
        ? [noFeed(place, material, shop)]
        : [],
    ),
    ...items.flatMap((item): Finding[] => {
      const sold = stockList.lengths.filter((entry) => entry.item === item).map(({ length }) => length);
      if (sold.length === 0) return [];
      const longest = Math.max(...sold);
      const pieces = frame.lengths.filter((piece) => piece.item === item && piece.length > longest);
      const lengths = [...new Set(pieces.map(({ length }) => length))];
      return lengths.length === 0 ? [] : [lengthShort(item, lengths, longest)];
    }),
  ];
}
