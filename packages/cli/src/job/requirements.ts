import { InputError, type Problem } from "../input/input-error.js";
import type { FrameInput } from "../input/read-frame.js";
import type { ShopProfile } from "../input/shop-profile.js";
import type { StockList } from "../input/stock-list.js";

/** A frame with all it takes to lay out and price. */
export interface CompleteInput extends FrameInput {
  readonly stock: StockList;
  readonly shop: ShopProfile;
}

/** The input with stock list and shop profile; throws InputError naming what is missing. */
export function completeInput(input: FrameInput, path: string): CompleteInput {
  const { stock, shop } = input;
  if (stock !== undefined && shop !== undefined) return { ...input, stock, shop };
  const problems: Problem[] = [];
  if (stock === undefined) {
    problems.push({
      where: path,
      field: "stock",
      message: "is missing; name a stock list (stock: stock.yaml)",
    });
  }
  if (shop === undefined) {
    problems.push({
      where: path,
      field: "shop",
      message: "is missing; name a shop profile (shop: shop.yaml)",
    });
  }
  throw new InputError(problems);
}
