import { inputError } from "../input/input-error.js";
import { didYouMean } from "../input/nearest-name.js";
import type { ShopProfile } from "../input/shop-profile.js";
import type { PaperWish } from "../job/paper-files.js";
import type { PaperOptions } from "./options.js";

const sizes = ["A4", "A3", "Letter"] as const;

/** What to print: as the options say, else as the shop profile says. Throws InputError for a paper that is not known. */
export function paperWish(options: PaperOptions, shop: ShopProfile): PaperWish {
  const { size, plates } = shop.files.paper;
  const asked = options.paper;
  const paper = asked === undefined ? size : sizes.find((each) => each.toLowerCase() === asked.toLowerCase());
  if (paper === undefined) {
    const hint = didYouMean(asked ?? "", sizes);
    throw inputError("--paper", `"${asked}" is not known; give one of ${sizes.join(", ")}${hint}`);
  }
  return { paper, plates: plates || options.paperPlates === true };
}
