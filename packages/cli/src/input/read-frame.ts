import type { CuttingParameters, FrameParameters } from "@keelcut/geometry";
import { checked } from "./checked.js";
import { readExtendedFile } from "./extended-file.js";
import { frameFileSchema } from "./frame-file.js";
import { unknownNames } from "./frame-names.js";
import { cuttingParameters, frameParameters } from "./frame-parameters.js";
import { InputError, inputError, type Problem } from "./input-error.js";
import { type LocatedMap, type LocatedScalar, placeText } from "./located.js";
import { readShopProfile } from "./read-shop-profile.js";
import { readStockList } from "./read-stock-list.js";
import { repeatedIds } from "./repeated-ids.js";
import { applySettings } from "./setting.js";
import type { ShopProfile } from "./shop-profile.js";
import type { StockList } from "./stock-list.js";

/** Everything a command starts from. */
export interface FrameInput {
  readonly parameters: FrameParameters;
  readonly stock: StockList | undefined;
  readonly shop: ShopProfile | undefined;
  /** Every file read, absolute: an output folder must not hold one. */
  readonly files: readonly string[];
}

/**
 * Reads a frame file, what it extends, the `--set` options, and the stock list and shop profile it names.
 *
 * @param path relative to `cwd`, as typed
 * @throws InputError with every problem found
 */
export async function readFrame(path: string, settings: readonly string[], cwd: string): Promise<FrameInput> {
  const extended = await readExtendedFile(path, cwd);
  const root = applySettings(extended.root, settings, cwd);
  const file = checked(frameFileSchema, root);
  const problems: Problem[] = [...repeatedIds(root), ...unknownNames(file, root)];

  const shopFile = scalarAt(root, "shop");
  const stockFile = scalarAt(root, "stock");
  const shop = shopFile && (await collecting(problems, readShopProfile(shopFile, cwd)));
  const stock = stockFile && (await collecting(problems, readStockList(stockFile, cwd)));
  if (problems.length > 0) throw new InputError(problems);
  if (shop && stock && shop.shop.currency !== stock.stock.currency) {
    throw inputError(
      placeText((stockFile as LocatedScalar).place),
      `the stock list counts in ${stock.stock.currency} and the shop profile in ${shop.shop.currency}; use one currency`,
      "stock",
    );
  }
  return {
    parameters: frameParameters(file, cuttingOf(file.cutting, shop?.shop, root)),
    stock: stock?.stock,
    shop: shop?.shop,
    files: [...extended.files, ...[shop?.absolute, stock?.absolute].filter((each) => each !== undefined)],
  };
}

async function collecting<T>(problems: Problem[], reading: Promise<T>): Promise<T | undefined> {
  try {
    return await reading;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    problems.push(...error.problems);
    return undefined;
  }
}

function scalarAt(root: LocatedMap, key: string): LocatedScalar | undefined {
  const node = root.entries.get(key)?.value;
  return node?.kind === "scalar" && node.value !== null ? node : undefined;
}

function cuttingOf(
  choice: Parameters<typeof cuttingParameters>[0],
  shop: ShopProfile | undefined,
  root: LocatedMap,
): CuttingParameters {
  const cutting = cuttingParameters(choice, shop);
  if (cutting !== undefined) return cutting;
  const missing = choice.method === undefined ? "cutting.method" : "cutting.kerf";
  throw inputError(
    placeText(root.place),
    "is missing: give it here, or name a shop profile (shop: shop.yaml)",
    missing,
  );
}
