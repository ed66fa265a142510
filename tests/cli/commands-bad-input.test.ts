import { afterEach, describe, expect, it } from "vitest";
import { type BadInput, starterFiles, usualArgv } from "./bad-input/bad-input.js";
import { badFields } from "./bad-input/fields.js";
import { badFiles } from "./bad-input/files.js";
import { badFolders } from "./bad-input/folders.js";
import { badFrames } from "./bad-input/frames.js";
import { badOptions } from "./bad-input/options.js";
import { badStockAndShop } from "./bad-input/stock-and-shop.js";
import { command, contents, remove, scratch } from "./command-run.js";

const families: Readonly<Record<string, readonly BadInput[]>> = {
  "files that cannot be read": badFiles,
  "values that cannot be meant": badFields,
  "stock lists and shop profiles": badStockAndShop,
  "command lines": badOptions,
  "output folders": badFolders,
  "frames that cannot be made": badFrames,
};

let folder = "";
afterEach(() => remove(folder));

it("knows at least a hundred ways to be wrong", () => {
  const names = Object.values(families).flatMap((cases) => cases.map((each) => each.name));
  expect(new Set(names).size).toBe(names.length);
  expect(names.length).toBeGreaterThanOrEqual(100);
});

describe.each(Object.entries(families))("%s", (_, cases) => {
  it.each(cases.map((each) => [each.name, each] as const))("%s", async (_, bad) => {
    const files = { ...starterFiles, ...bad.files };
    const given = Object.entries(files).filter(
      (entry): entry is [string, string | Uint8Array] => entry[1] !== undefined,
    );
    folder = await scratch(Object.fromEntries(given));
    const before = await contents(folder);

    const ran = await command(bad.argv ?? usualArgv, folder);

    const code = bad.code ?? 2;
    // Findings are a result and go to stdout; mistakes in the input go to stderr.
    const message = code === 1 ? ran.out : ran.err;
    for (const part of bad.says) expect(message).toContain(part);
    expect(ran.code).toBe(code);
    expect(code === 1 ? ran.err : ran.out).toBe("");
    expect(message).not.toMatch(/unexpected error|\n\s+at |undefined|\[object|node:/);
    expect(message.split("\n").length).toBeLessThan(code === 1 ? 80 : 30);
    expect(await contents(folder)).toEqual(before);
  });
});
