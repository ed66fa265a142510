import { type Finding, type Plate, touchingEdges } from "@keelcut/geometry";
import { type Bridge, type BridgeOptions, plateBridges } from "../bridges/bridge-places.js";
import type { ShopProfile } from "../input/shop-profile.js";
import type { HoldingBridges } from "../output/page/index.js";

/** Where the shop's bridges go, for every plate of the job. */
export interface JobBridges {
  /** Absent when the shop wants none. */
  readonly options?: BridgeOptions;
  readonly byPlate: ReadonlyMap<string, readonly Bridge[]>;
  readonly findings: readonly Finding[];
}

/** Chooses the bridges of all plates, as the shop profile wishes; `plates` are those of the whole frame. */
export function jobBridges(plates: readonly Plate[], shop: ShopProfile): JobBridges {
  const known = bridgesOf.get(plates);
  if (known?.shop === shop) return known.bridges;
  const bridges = chosenBridges(plates, shop);
  bridgesOf.set(plates, { shop, bridges });
  return bridges;
}

/** Drawings, cost, page and lists of one job ask for the same bridges. */
const bridgesOf = new WeakMap<
  readonly Plate[],
  { readonly shop: ShopProfile; readonly bridges: JobBridges }
>();

function chosenBridges(plates: readonly Plate[], shop: ShopProfile): JobBridges {
  const { bridges: wish } = shop.files;
  const byPlate = new Map<string, readonly Bridge[]>();
  if (wish === undefined) return { byPlate, findings: [] };
  const { kerf } = shop.cutting;
  const { largeOpening, ...rest } = wish;
  const full = { ...rest, ...(largeOpening === undefined ? {} : { largeOpening }) };
  const touches = touchingEdges(plates);
  const findings: Finding[] = [];
  for (const plate of plates) {
    if (plate.made !== "cut") continue;
    const found = plateBridges(plate, full, kerf, (point) => touches(plate, point));
    byPlate.set(plate.id, found.bridges);
    findings.push(...found.findings);
  }
  const of = (id: string): readonly Bridge[] => byPlate.get(id) ?? [];
  return { options: { gap: wish.width + kerf, of }, byPlate, findings };
}

/** Whether bridges on every plate, or the shop's own holding tabs, keep plates in the sheet while they are cut. */
export function isHeld(plates: readonly Plate[], shop: ShopProfile): boolean {
  if (shop.cutting.tabs !== undefined) return true;
  const { byPlate } = jobBridges(plates, shop);
  return plates.every(({ id, made }) => made !== "cut" || (byPlate.get(id)?.length ?? 0) > 0);
}

/** How many bridges of what width hold the plates of one kit; undefined when none do. */
export function holdingBridges(
  plates: readonly Plate[],
  { files }: ShopProfile,
  { byPlate }: JobBridges,
): HoldingBridges | undefined {
  const perKit = plates.reduce((sum, { id, count }) => sum + count * (byPlate.get(id)?.length ?? 0), 0);
  return files.bridges && perKit > 0 ? { width: files.bridges.width, perKit } : undefined;
}
