import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { command, remove, scratch } from "../cli/command-run.js";

const root = fileURLToPath(new URL("../..", import.meta.url));
const readme = await readFile(join(root, "README.md"), "utf8");

/** The lines of the README that call the program, without their comments; heavy ones are run by tests of their own. */
const lines = [...readme.matchAll(/^keelcut (.*?)(?: +#.*)?$/gm)].map((found) => found[1] ?? "");
const quick = lines.filter((line) => !/^(make|cost|compare|prove) /.test(line));

describe("the README's examples", () => {
  it("are there, and name only commands that exist", async () => {
    expect(lines.length).toBeGreaterThan(6);
    const help = await command(["--help"], root);
    for (const line of lines) expect(help.out).toMatch(new RegExp(`^ +${line.split(" ")[0]}\\b`, "m"));
  });

  it.each(quick)("keelcut %s", async (line) => {
    const words = [...line.matchAll(/"([^"]*)"|(\S+)/g)].map((word) => word[1] ?? word[2] ?? "");
    const folder = await scratch({});
    try {
      const argv = words.map((word) => (word.startsWith("examples/") ? join(root, word) : word));
      const ran = await command(argv, folder);
      expect(ran.err).toBe("");
      expect(ran.code).toBe(0);
      expect(ran.out).not.toBe("");
    } finally {
      await remove(folder);
    }
  });
});
