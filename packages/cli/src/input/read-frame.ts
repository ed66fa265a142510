import { dirname, relative, resolve } from "node:path";
import type { CuttingParameters, FrameParameters } from "@keelcut/geometry";
import { checked } from "./checked.js";
import type { DrawnPlates } from "./drawn-plates.js";
import { readExtendedFile } from "./extended-file.js";
import { type FrameFile, frameFileSchema } from "./frame-file.js";
import { unknownNames } from "./frame-names.js";
import { cuttingParameters, frameParameters } from "./frame-parameters.js";
import { InputError, inputError, type Problem } from "./input-error.js";
import { type Located, type LocatedMap, type LocatedScalar, nodeAt, placeText } from "./located.js";
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
  /** With what the frame says about cutting in place: costs and files follow what is really cut. */
  readonly shop: ShopProfile | undefined;
  /** Path of the stock list from the frame file: the same wherever the program is run from. */
  readonly stockFile: string;
  /** Whether a field of the frame file, the shop profile or the stock list was written, by its path: `shop.machine.travelFeed`. */
  readonly given: (path: string) => boolean;
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
  const drawn = await drawnPlates(file, root);
  problems.push(...drawn.problems);
  if (problems.length > 0) throw new InputError(problems);
  if (shop && stock && shop.shop.currency !== stock.stock.currency) {
    throw inputError(
      placeText((stockFile as LocatedScalar).place),
      `the stock list counts in ${stock.stock.currency} and the shop profile in ${shop.shop.currency}; use one currency`,
      "stock",
    );
  }
  const cutting = cuttingOf(file.cutting, shop?.shop, root);
  return {
    parameters: frameParameters(file, cutting, drawn.outlines),
    stock: stock?.stock,
    shop: shop && shopCutting(shop.shop, cutting),
    stockFile: stock === undefined ? "" : relative(dirname(resolve(cwd, path)), stock.files[0]),
    given: writtenIn({ frame: root, shop: shop?.root, stock: stock?.root }),
    files: [
      ...extended.files,
      ...drawn.files,
      ...(shop === undefined ? [] : [shop.absolute]),
      ...(stock?.files ?? []),
    ],
  };
}

/** Readers of drawings are many modules: they are loaded when a plate is drawn elsewhere. */
async function drawnPlates(file: FrameFile, root: LocatedMap): Promise<DrawnPlates> {
  if (file.plates.every((plate) => plate.import === undefined)) {
    return { outlines: new Map(), files: [], problems: [] };
  }
  const { readDrawnPlates } = await import("./drawn-plates.js");
  return readDrawnPlates(file, root);
}

function shopCutting(shop: ShopProfile, cutting: CuttingParameters): ShopProfile {
  const { method, kerf, clearance, edgeMargin, compensation } = cutting;
  const safetyGap = Math.round((clearance - kerf) * 1e6) / 1e6;
  return { ...shop, cutting: { ...shop.cutting, method, kerf, safetyGap, edgeMargin, compensation } };
}

function writtenIn(roots: { readonly [file: string]: Located | undefined }): (path: string) => boolean {
  return (path) => {
    const [file = "", ...steps] = path.split(".");
    const root = Object.hasOwn(roots, file) ? roots[file] : undefined;
    if (root === undefined) return false;
    const { reached, node } = nodeAt(root, steps);
    // null takes a value back.
    return reached === steps.length && !(node.kind === "scalar" && node.value === null);
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
  if (cutting !== undefined) {
    if (cutting.clearance < cutting.kerf) throw tooClose(cutting, root);
    if (cutting.compensation === "file" && cutting.clearance - cutting.kerf < LEAST_GAP) {
      throw linesTogether(cutting, root);
    }
    return cutting;
  }
  const missing = choice.method === undefined ? "cutting.method" : "cutting.kerf";
  throw inputError(
    placeText(root.place),
    "is missing: give it here, or name a shop profile (shop: shop.yaml)",
    missing,
  );
}

/** Below this gap compensated lines of two plates are one line for whoever reads the file, mm. */
const LEAST_GAP = 0.01;

/** Compensated lines move half a kerf towards each other. */
function linesTogether({ clearance, kerf }: CuttingParameters, root: LocatedMap): InputError {
  return inputError(
    placeText(nodeAt(root, ["cutting"]).node.place),
    `with compensation: file the cut lines of two plates ${clearance} mm apart, with a kerf of ${kerf} mm, would lie on each other; leave a safetyGap of 0.1 mm or more`,
    "cutting.compensation",
  );
}

/** Two cuts side by side must not run into each other. */
function tooClose({ clearance, kerf }: CuttingParameters, root: LocatedMap): InputError {
  return inputError(
    placeText(nodeAt(root, ["cutting", "clearance"]).node.place),
    `${clearance} mm between two plates is less than the kerf of ${kerf} mm; give the kerf and the gap that is to stay, for example ${kerf + 2}, or leave it out`,
    "cutting.clearance",
  );
}
