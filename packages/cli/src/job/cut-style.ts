import type { ShopProfile } from "../input/shop-profile.js";
import type { DrawingOptions, SizeState } from "../output/index.js";
import { type JobBridges, jobBridges } from "./bridges.js";
import type { Job } from "./job.js";
import { kitNumbers, type PlateLabels, plateLabels } from "./plate-labels.js";

/** How the cut files of a job are drawn. */
export interface CutStyle {
  readonly shop: ShopProfile;
  readonly size: SizeState;
  readonly bridges: JobBridges;
  /** Texts on the plates of the sheet with this place in this group. */
  readonly sheetLabels: (group: number, sheet: number) => PlateLabels;
  /** Texts on a plate drawn alone. */
  readonly labels: PlateLabels;
}

export function cutStyle({ input, frame, groups, quantity }: Job): CutStyle {
  const { shop } = input;
  const kits = kitNumbers(groups, frame.plates, quantity.kits);
  return {
    shop,
    size: sizeState(input.parameters.cutting),
    bridges: jobBridges(frame.plates, shop),
    sheetLabels: (group, sheet) => plateLabels(frame, kits[group]?.[sheet]),
    labels: plateLabels(frame),
  };
}

/** The writers' options for one drawing. */
export function drawingOptions(
  { shop, bridges }: CutStyle,
  size: SizeState,
  labels: PlateLabels,
): DrawingOptions {
  const { marks, stockOutline, leadIns } = shop.files;
  return {
    size,
    marks,
    stockOutline,
    labels,
    ...(bridges.options === undefined ? {} : { bridges: bridges.options }),
    ...(leadIns && { leadIns: { ...leadIns, cutRadius: shop.cutting.kerf / 2 } }),
  };
}

/** Whether files hold the plates' own size, or contours moved by half a kerf. */
function sizeState(cutting: { readonly compensation: "shop" | "file"; readonly kerf: number }): SizeState {
  return cutting.compensation === "shop"
    ? { state: "nominal", widestCut: cutting.kerf }
    : { state: "compensated", kerf: cutting.kerf };
}
