import { colourFault } from "../output/layer-names.js";
import { checked } from "./checked.js";
import { inputError } from "./input-error.js";
import { type Located, type LocatedScalar, nodeAt, placeText } from "./located.js";
import { type ShopProfile, shopProfileSchema } from "./shop-profile.js";
import { readReferencedFile } from "./yaml-file.js";

export interface ReadShopProfile {
  readonly absolute: string;
  readonly shop: ShopProfile;
  readonly root: Located;
}

/** Reads the shop profile that a frame file or an option names. Throws InputError. */
export async function readShopProfile(reference: LocatedScalar, cwd: string): Promise<ReadShopProfile> {
  const { absolute, root } = await readReferencedFile(reference, "shop", cwd);
  const shop = checked(shopProfileSchema, root);
  const names = nodeAt(root, ["files", "layerNames"]);
  // The usual names have no fault, and the writers are many modules.
  const fault = names.reached < 2 ? undefined : await layerFault(shop);
  if (fault !== undefined) throw inputError(placeText(names.node.place), fault, "files.layerNames");
  const clash = colourFault(shop.files);
  if (clash !== undefined) {
    const { place } = nodeAt(root, ["files", "layerColours"]).node;
    throw inputError(placeText(place), clash, "files.layerColours");
  }
  if (shop.files.leadIns !== undefined && !shop.files.marks) {
    const { place } = nodeAt(root, ["files", "leadIns"]).node;
    const message = "lead-ins are drawn among the marks: give marks: true, or leave leadIns out";
    throw inputError(placeText(place), message, "files.leadIns");
  }
  return { absolute, shop, root };
}

/** What the writers would say about the layer names: asked now, because minutes of search lie between. */
async function layerFault(shop: ShopProfile): Promise<string | undefined> {
  const { fileFault } = await import("../output/file-fault.js");
  const { layers, layerNames, dxf } = shop.files;
  return fileFault({ layers, layerNames, flavour: dxf });
}
