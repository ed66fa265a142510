import { execFile } from "node:child_process";
import { readFile } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { remove, scratch } from "../cli/command-run.js";
import { frame, shop, stock } from "../cli/starter-texts.js";
import { program, programFile } from "./built-program.js";

let folder = "";
beforeAll(async () => {
  folder = await scratch({ "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop });
});
afterAll(() => remove(folder));

/** Packages that a built file imports as it is loaded, itself or through others; what it imports later does not count. */
async function loadedBy(file: string, seen = new Set<string>()): Promise<Set<string>> {
  const packages = new Set<string>();
  if (seen.has(file)) return packages;
  seen.add(file);
  const text = await readFile(file, "utf8");
  for (const [, from = "", alone = ""] of text.matchAll(
    /^(?:import|export)\s[^;]*?from\s+"([^"]+)"|^import\s+"([^"]+)"/gm,
  )) {
    const name = from || alone;
    if (!name.startsWith(".")) packages.add(name);
    else for (const more of await loadedBy(resolve(dirname(file), name), seen)) packages.add(more);
  }
  return packages;
}

it("helps without loading the geometry, or anything but what reads the command line", async () => {
  const ended = await program(["--help"], folder);
  expect([ended.code, ended.err]).toEqual([0, ""]);
  expect(ended.out).toContain("Usage: keelcut");
  expect([...(await loadedBy(programFile))]).toEqual(["commander"]);
  // A command does load it, so that the look at its files sees something.
  const make = resolve(dirname(programFile), "commands/make.js");
  expect([...(await loadedBy(make))]).toContain("@keelcut/geometry");
});

it("shows where it failed only when asked", async () => {
  const quiet = await program(["make", "frame.yaml", "--kits", "x"], folder);
  expect(quiet.err.trim().split("\n")).toHaveLength(1);
  const loud = await program(["make", "frame.yaml", "--kits", "x"], folder, { KEELCUT_DEBUG: "1" });
  expect(loud.err).toMatch(/\n\s+at /);
  expect([quiet.code, loud.code]).toEqual([2, 2]);
});

it("does not mind a reader that goes away", async () => {
  const command = `"${process.execPath}" "${programFile}" catalog --json | head -c 20`;
  const err = await new Promise<string>((resolve) => {
    execFile("sh", ["-c", command], { cwd: folder }, (_, __, text) => resolve(text));
  });
  expect(err).toBe("");
});

it("never colours a pipe", async () => {
  const ended = await program(["check", "frame.yaml"], folder, { TERM: "xterm-256color" });
  expect(ended.code).toBe(0);
  expect(ended.out + ended.err).not.toContain("\x1b");
});
