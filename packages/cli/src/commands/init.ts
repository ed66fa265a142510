import { mkdir, rm, stat, writeFile } from "node:fs/promises";
import { join, resolve } from "node:path";
import { exitCodes } from "../exit-codes.js";
import { OutputError, outputError } from "../output/output-error.js";
import type { Screen } from "../screen/screen.js";
import type { JsonOption } from "./options.js";
import { frameText } from "./starter/frame-text.js";
import { shopText } from "./starter/shop-text.js";
import { stockText } from "./starter/stock-text.js";

const starter: Readonly<Record<string, string>> = {
  "frame.yaml": frameText,
  "stock.yaml": stockText,
  "shop.yaml": shopText,
};

/** Writes the starter files into a folder that has none of them. Nothing is overwritten, and on failure nothing stays. */
export async function init(folder: string, options: JsonOption, screen: Screen): Promise<number> {
  if (folder.trim() === "") throw new OutputError("the folder's name is empty");
  const target = resolve(screen.cwd, folder);
  for (const name of Object.keys(starter)) {
    const there = await stat(join(target, name)).then(
      () => true,
      () => false,
    );
    if (there) throw new OutputError(`${join(folder, name)} is there already; choose another folder`);
  }
  await writeStarter(target, folder);
  const files = Object.keys(starter).map((name) => join(folder, name));
  if (options.json === true) {
    screen.print(JSON.stringify({ format: "keelcut-init", version: 1, files }, undefined, 2));
  } else {
    screen.print(`Wrote ${files.join(", ")}.\nNext: keelcut make ${join(folder, "frame.yaml")}`);
  }
  return exitCodes.fine;
}

async function writeStarter(target: string, folder: string): Promise<void> {
  const written: string[] = [];
  let made: string | undefined;
  try {
    made = await mkdir(target, { recursive: true });
    for (const [name, text] of Object.entries(starter)) {
      await writeFile(join(target, name), text, { flag: "wx" });
      written.push(join(target, name));
    }
  } catch (error) {
    for (const path of written) await rm(path, { force: true });
    if (made !== undefined) await rm(made, { recursive: true, force: true });
    throw outputError(folder, error);
  }
}
