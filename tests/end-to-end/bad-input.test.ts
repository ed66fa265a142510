import { afterEach, expect, it } from "vitest";
import { type BadInput, starterFiles, usualArgv } from "../cli/bad-input/bad-input.js";
import { badFields } from "../cli/bad-input/fields.js";
import { badFiles } from "../cli/bad-input/files.js";
import { badFolders } from "../cli/bad-input/folders.js";
import { badFrames } from "../cli/bad-input/frames.js";
import { badOptions } from "../cli/bad-input/options.js";
import { badStockAndShop } from "../cli/bad-input/stock-and-shop.js";
import { contents, remove, scratch } from "../cli/command-run.js";
import { program } from "./built-program.js";

const all = [...badFields, ...badFiles, ...badFolders, ...badFrames, ...badOptions, ...badStockAndShop];
const chosen: readonly BadInput[] = [
  "no such frame file",
  "a tab for indentation",
  "an unknown key",
  "a negative size",
  "a pipe nobody makes",
  "NaN",
  "1e9",
  "two ducts of one name",
  "an empty list of ducts",
  "no price",
  "a deck larger than any sheet",
  "a folder with other files",
  "the working folder",
  "an unknown option",
].map((name) => {
  const bad = all.find((each) => each.name === name);
  if (bad === undefined) throw new Error(`there is no case "${name}"`);
  return bad;
});

let folder = "";
afterEach(() => remove(folder));

it.each(chosen.map((bad) => [bad.name, bad] as const))(
  "%s",
  async (_, bad) => {
    const files = Object.entries({ ...starterFiles, ...bad.files });
    folder = await scratch(
      Object.fromEntries(files.filter((entry): entry is [string, string] => entry[1] !== undefined)),
    );
    const before = await contents(folder);
    const ended = await program(bad.argv ?? usualArgv, folder);
    const code = bad.code ?? 2;
    const message = code === 1 ? ended.out : ended.err;
    for (const part of bad.says) expect(message).toContain(part);
    expect(ended.code).toBe(code);
    expect(ended.out + ended.err).not.toMatch(/\n\s+at /);
    expect(await contents(folder)).toEqual(before);
  },
  60_000,
);
