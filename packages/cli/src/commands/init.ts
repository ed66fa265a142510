import { mkdir, rm, stat, writeFile } from "node:fs/promises";
import { join, resolve } from "node:path";
import { exitCodes } from "../exit-codes.js";
import { OutputError, outputError } from "../output/output-error.js";
import type { Screen } from "../screen/screen.js";
import type { JsonOption } from "./options.js";
import { frameText } from "./starter/frame-text.js";
import { shopProfileText } from "./starter/shop-profile-text.js";
import { shopText } from "./starter/shop-text.js";
import { stockText } from "./starter/stock-text.js";

const starter: Readonly<Record<string, string>> = {
  "frame.yaml": frameText,
  "stock.yaml": stockText,
  "shop.yaml": shopText,
};

/** A shop profile alone, with every field explained. */
const shopStarter: Readonly<Record<string, string>> = { "shop.yaml": shopProfileText };

export interface InitOptions extends JsonOption {
  /** Only a shop profile. */
  readonly shop?: boolean;
}

/** Writes the starter files into a folder that has none of them. Nothing is overwritten, and on failure nothing stays. */
export async function init(folder: string, options: InitOptions, screen: Screen): Promise<number> {
  if (folder.trim() === "") throw new OutputError("the folder's name is empty");
  const target = resolve(screen.cwd, folder);
  const texts = options.shop === true ? shopStarter : starter;
  for (const name of Object.keys(texts)) {
    const there = await stat(join(target, name)).then(
      () => true,
      () => false,
    );
    if (there) throw new OutputError(`${join(folder, name)} is there already; choose another folder`);
  }
  await writeStarter(target, folder, texts);
  const files = Object.keys(texts).map((name) => join(folder, name));
  if (options.json === true) {
    screen.print(JSON.stringify({ format: "keelcut-init", version: 1, files }, undefined, 2));
  } else {
    const next =
      options.shop === true
        ? "Next: fill it in with your shop, and name it in your frame file (shop: shop.yaml)"
        : `Next: keelcut make ${join(folder, "frame.yaml")}`;
    screen.print(`Wrote ${files.join(", ")}.\n${next}`);
  }
  return exitCodes.fine;
}

async function writeStarter(
  target: string,
  folder: string,
  texts: Readonly<Record<string, string>>,
): Promise<void> {
  const written: string[] = [];
  let made: string | undefined;
  try {
    made = await mkdir(target, { recursive: true });
    for (const [name, text] of Object.entries(texts)) {
      await writeFile(join(target, name), text, { flag: "wx" });
      written.push(join(target, name));
    }
  } catch (error) {
    for (const path of written) await rm(path, { force: true });
    if (made !== undefined) await rm(made, { recursive: true, force: true });
    throw outputError(folder, error);
  }
}
