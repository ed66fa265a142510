import { checked } from "./checked.js";
import type { LocatedScalar } from "./located.js";
import { type ShopProfile, shopProfileSchema } from "./shop-profile.js";
import { readReferencedFile } from "./yaml-file.js";

export interface ReadShopProfile {
  readonly absolute: string;
  readonly shop: ShopProfile;
}

/** Reads the shop profile that a frame file or an option names. Throws InputError. */
export async function readShopProfile(reference: LocatedScalar, cwd: string): Promise<ReadShopProfile> {
  const { absolute, root } = await readReferencedFile(reference, "shop", cwd);
  return { absolute, shop: checked(shopProfileSchema, root) };
}
