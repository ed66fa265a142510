import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { shopProfileText } from "../../packages/cli/src/commands/starter/shop-profile-text.js";
import { command, contents, remove, scratch } from "./command-run.js";
import { frame, shop, stock } from "./starter-texts.js";

const shops = fileURLToPath(new URL("../../examples/shops", import.meta.url));
const names = (await readdir(shops)).filter((name) => name.endsWith(".yaml"));

describe("the example profiles", () => {
  it("are three at least", () => {
    expect(names.length).toBeGreaterThanOrEqual(3);
  });
  it.each(names)("%s is read without a complaint", async (name) => {
    const folder = await scratch({ "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop });
    const ran = await command(
      ["plates", "frame.yaml", "--set", `shop=${join(shops, name)}`, "--json"],
      folder,
    );
    await remove(folder);
    // A laser refuses PVC: that is a finding about the frame, not about the profile.
    expect([ran.code <= 1, ran.err]).toEqual([true, ""]);
  });
  it("differ in what shops differ in", async () => {
    const texts = await Promise.all(names.map((name) => readFile(join(shops, name), "utf8")));
    for (const words of [
      "method: router",
      "method: laser",
      "method: waterjet",
      "dxf: R12",
      "layers: single",
    ]) {
      expect(texts.some((text) => text.includes(words))).toBe(true);
    }
    expect(texts.some((text) => text.includes("compensation: file"))).toBe(true);
  });
});

describe("init --shop", () => {
  it("writes one profile that reads, names every field, and overwrites nothing", async () => {
    const folder = await scratch({ "frame.yaml": frame, "stock.yaml": stock });
    const ran = await command(["init", ".", "--shop"], folder);
    expect(ran.code).toBe(0);
    const written = await contents(folder);
    expect(written.get("shop.yaml")).toBe(shopProfileText);
    const listed = await command(["plates", "frame.yaml"], folder);
    expect([listed.code, listed.err]).toEqual([0, ""]);
    const again = await command(["init", ".", "--shop"], folder);
    expect([again.code, (await contents(folder)).get("shop.yaml")]).toEqual([2, shopProfileText]);
    await remove(folder);
  });

  it("explains every field of the schema", async () => {
    const fields = (schema: unknown): string[] => {
      const { properties = {}, items } = schema as { properties?: Record<string, unknown>; items?: unknown };
      const inner = Object.entries(properties).flatMap(([name, each]) => [name, ...fields(each)]);
      return items === undefined ? inner : [...inner, ...fields(items)];
    };
    const known = fields(JSON.parse((await command(["schema", "shop"], ".")).out));
    expect(known).toContain("largeOpening");
    for (const name of known)
      expect([name, new RegExp(`\\b${name}:|\\b${name} `).test(shopProfileText)]).toEqual([name, true]);
  });
});
