import { execFile } from "node:child_process";
import { afterAll, beforeAll, expect, it } from "vitest";
import { remove, scratch } from "../cli/command-run.js";
import { frame, shop, stock } from "../cli/starter-texts.js";
import { program, programFile } from "./built-program.js";

let folder = "";
beforeAll(async () => {
  folder = await scratch({ "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop });
});
afterAll(() => remove(folder));

it("helps without loading the geometry", async () => {
  const runs = [];
  for (let run = 0; run < 5; run++) runs.push(await program(["--help"], folder));
  expect(runs.map((each) => each.code)).toEqual([0, 0, 0, 0, 0]);
  // About 0.13 s on the machine it was written on; other machines and other work beside it get five times that.
  expect(Math.min(...runs.map((each) => each.seconds))).toBeLessThan(0.65);
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
