import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { verify } from "@keelcut/nesting";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { laidInRows, leastSheets } from "../../packages/cli/src/compare/laid-in-rows.js";
import { combinations, variedValues } from "../../packages/cli/src/compare/vary.js";
import { readFrame } from "../../packages/cli/src/input/read-frame.js";
import { derived } from "../../packages/cli/src/job/derived.js";
import { sheetGroups } from "../../packages/cli/src/job/sheet-groups.js";
import { command, contents, remove, scratch } from "./command-run.js";
import { frame, shop, stock } from "./starter-texts.js";

let folder = "";
beforeEach(async () => {
  folder = await scratch({ "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop });
});
afterEach(() => remove(folder));

describe("what is varied", () => {
  it.each([
    ["a=1,2,3", ["1", "2", "3"]],
    ["a=M5, M6", ["M5", "M6"]],
    ["a=50..60:5", ["50", "55", "60"]],
    ["a=50..59:5", ["50", "55"]],
    ["a=3..1", ["3", "2", "1"]],
    ["a=0.1..0.3:0.1", ["0.1", "0.2", "0.3"]],
    ["a=1,10..20:10", ["1", "10", "20"]],
    ["a={cross: [16, 19]},{circle: 25}", ["{cross: [16, 19]}", "{circle: 25}"]],
    ['a="x, y",z', ['"x, y"', "z"]],
    ["a=1-1/2,2", ["1-1/2", "2"]],
    ["a=null,5", ["null", "5"]],
  ])("%s", (option, values) => {
    expect(variedValues([option])).toEqual([{ path: "a", values }]);
  });

  it.each([
    ["a", /write path=values/],
    ["=1", /write path=values/],
    ["a=1,,2", /is empty/],
    ["a=1,1", /1 is given twice/],
    ["a=1..9:0", /never arrives/],
    ["a=1..9000", /larger step/],
  ])("%s is refused", (option, message) => {
    expect(() => variedValues([option])).toThrow(message);
  });

  it("twice, or too often, is refused", () => {
    expect(() => variedValues(["a=1", "a=2"])).toThrow(/given twice/);
    expect(() => variedValues(["a=1..100", "b=1..100"])).toThrow(/10000 combinations/);
  });

  it("gives every combination, the last fastest", () => {
    const all = combinations(variedValues(["a=1,2", "b=x,y"]));
    expect(all.map(({ settings }) => settings.join(" "))).toEqual([
      "a=1 b=x",
      "a=1 b=y",
      "a=2 b=x",
      "a=2 b=y",
    ]);
  });
});

describe("plates laid in rows", () => {
  it("are a sound layout by the independent check, on no fewer sheets than can do", async () => {
    const input = await readFrame("frame.yaml", [], folder);
    const { frame: found } = derived(input);
    for (const kits of [1, 9]) {
      const { groups } = sheetGroups(found.plates, input, { kits, sparesPercent: 0 }, { seed: 1 });
      expect(groups.length).toBe(2);
      for (const group of groups) {
        const result = laidInRows(group);
        if (result === undefined) throw new Error("no layout");
        expect(verify(group.job, result)).toEqual([]);
        expect(result.sheets.length).toBeGreaterThanOrEqual(leastSheets(group));
        const placed = result.sheets.reduce((sum, sheet) => sum + sheet.placements.length, 0);
        expect(placed).toBe(group.job.parts.reduce((sum, part) => sum + part.demand, 0));
      }
    }
  });
});

interface Compared {
  readonly format: string;
  readonly variants: readonly {
    readonly values: readonly string[];
    readonly fits: boolean;
    readonly reason?: { readonly id?: string; readonly place: string; readonly message: string };
    readonly figures?: {
      readonly plates: number;
      readonly mass: number;
      readonly cost?: { readonly total: number; readonly unpriced: number };
      readonly materials: readonly { readonly leastSheets?: number; readonly sheets?: number }[];
    };
  }[];
}

async function compared(...argv: readonly string[]): Promise<{ code: number; data: Compared }> {
  const ran = await command(["compare", "frame.yaml", "--json", ...argv], folder);
  expect(ran.err).toBe("");
  return { code: ran.code, data: JSON.parse(ran.out) as Compared };
}

describe("compare", () => {
  it("shows what fits, weighs and costs, and the first reason where it does not", async () => {
    const before = await contents(folder);
    const { code, data } = await compared("--vary", "ducts.*.pipe.size=50,75,76,110");
    expect([code, data.format]).toEqual([0, "keelcut-compare"]);
    expect(data.variants.map(({ values, fits }) => [values[0], fits])).toEqual([
      ["50", false],
      ["75", true],
      ["76", false],
      ["110", true],
    ]);
    const [small, first, unknown, large] = data.variants;
    expect(small?.reason?.id).toMatch(/^fit\./);
    expect(unknown?.reason).toMatchObject({ place: "ducts.port.pipe.size" });
    expect(unknown?.reason?.message).toMatch(/"76" is not in the table .*75/);
    expect(large?.figures?.mass).toBeGreaterThan(first?.figures?.mass ?? Number.NaN);
    expect(first?.figures?.cost?.total).toBeGreaterThan(0);
    for (const { figures } of data.variants) {
      for (const { leastSheets: least = 0, sheets = 0 } of figures?.materials ?? []) {
        expect(sheets).toBeGreaterThanOrEqual(least);
      }
    }
    expect(await contents(folder)).toEqual(before);
  }, 60_000);

  it("tells prices that lack something from those that are whole, in the table too", async () => {
    const vary = ["--vary", "ducts.*.pipe.size=75,90"];
    const { data } = await compared(...vary);
    const unpriced = data.variants.map(({ figures }) => figures?.cost?.unpriced ?? 0);
    expect(unpriced[1]).toBeGreaterThan(unpriced[0] ?? Number.NaN);
    const { out } = await command(["compare", "frame.yaml", ...vary], folder);
    const row = out.split("\n").find((line) => /^ *90 /.test(line));
    expect(row).toMatch(new RegExp(`\\+ ${unpriced[1]} unpriced$`));
  }, 60_000);

  it("refuses what check refuses, texts that run off their plate among it", async () => {
    const own =
      "plates=[{id: tag, outline: {rectangle: [40, 30]}, count: 1, marks: [{text: LAMP, at: [0, 0], height: 60}]}]";
    expect((await command(["check", "frame.yaml", "--set", own], folder)).code).toBe(1);
    const { code, data } = await compared("--vary", "deck.length=320", "--set", own);
    expect(code).toBe(1);
    expect(data.variants.map(({ fits }) => fits)).toEqual([false]);
  });

  it("says that it was stopped early, also when that was within the last variant", async () => {
    const control = new AbortController();
    const running = command(
      ["compare", "frame.yaml", "--vary", "deck.length=320", "--nest", "--effort", "20", "--json"],
      folder,
      { signal: control.signal },
    );
    setTimeout(() => control.abort(), 4000);
    const { code, out } = await running;
    const { stoppedEarly, variants } = JSON.parse(out) as { stoppedEarly: boolean; variants: object[] };
    expect([code, stoppedEarly, variants.length]).toEqual([0, true, 1]);
  }, 60_000);

  it("says of one frame what plates says of it", async () => {
    const { data } = await compared("--vary", "deck.length=320");
    const plates = JSON.parse(
      (await command(["plates", "frame.yaml", "--json", "--set", "deck.length=320"], folder)).out,
    ) as {
      plates: { made: string; count: number }[];
    };
    const cut = plates.plates.filter(({ made }) => made === "cut");
    expect(data.variants[0]?.figures?.plates).toBe(cut.reduce((sum, { count }) => sum + count, 0));
  });

  it("lays as many plates as the cost sheet counts, with scrap and the least spares", async () => {
    const area = async (): Promise<number> => {
      const { data } = await compared("--vary", "deck.length=320", "--kits", "20");
      const sheets = data.variants[0]?.figures?.materials.map(({ leastSheets = 0 }) => leastSheets) ?? [];
      return sheets.reduce((sum, count) => sum + count, 0);
    };
    const plain = await area();
    await writeFile(join(folder, "stock.yaml"), `${stock}\nselling: {scrapPercent: 50}\n`);
    const scrap = await area();
    await writeFile(join(folder, "stock.yaml"), `${stock}\nselling: {spares: {least: {plates: 80}}}\n`);
    const least = await area();
    expect(plain).toBeGreaterThan(2);
    // Half of all spoiled: twice as many are cut, so no fewer sheets than twice, less what rounding up saves.
    expect(scrap).toBeGreaterThanOrEqual(2 * plain - 2);
    expect(least).toBeGreaterThan(plain);
  }, 60_000);

  it("lacks with --nest the prices that cost lacks", async () => {
    const search = ["--effort", "1"];
    const { data } = await compared("--vary", "deck.length=300", "--nest", ...search);
    const cost = JSON.parse((await command(["cost", "frame.yaml", "--json", ...search], folder)).out) as {
      estimates: { totals: { unpriced: number } }[];
    };
    expect(data.variants[0]?.figures?.cost?.unpriced).toBe(cost.estimates[0]?.totals.unpriced);
    expect(data.variants[0]?.figures?.cost?.total).toBeGreaterThan(0);
  }, 60_000);

  it("prints a table and writes a page that needs nothing beside itself", async () => {
    const argv = ["compare", "frame.yaml", "--vary", "ducts.*.pipe.size=75,110", "--out", "compared.html"];
    const ran = await command(argv, folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    expect(ran.out).toMatch(/^ducts\.\*\.pipe\.size +fits +plates/m);
    expect(ran.out).toMatch(/2 of 2 variants fit/);
    const page = await readFile(join(folder, "compared.html"), "utf8");
    expect(page).toContain("110");
    expect(page).not.toMatch(/<script|https?:|src=/);
    // A folder is made for it, and what lies beside under another name is left alone.
    await writeFile(join(folder, "compared.html.part"), "mine");
    const deeper = await command([...argv.slice(0, -1), "out/deep/compared.html"], folder);
    expect(deeper.code).toBe(0);
    expect(deeper.out).toContain("Wrote out/deep/compared.html");
    expect(await readFile(join(folder, "out/deep/compared.html"), "utf8")).toBe(page);
    // Its own page is replaced, a foreign file is not.
    expect((await command(argv, folder)).code).toBe(0);
    expect(await readFile(join(folder, "compared.html.part"), "utf8")).toBe("mine");
    const foreign = await command([...argv.slice(0, -1), "stock.yaml"], folder);
    expect([foreign.code, foreign.out]).toEqual([2, ""]);
    expect(foreign.err).toContain("is an input file");
  }, 60_000);

  it.each([
    [[], /--vary: is missing/],
    [
      ["--vary", "ducts.*.pipe.siez=75,110"],
      /ducts\.port\.pipe\.siez: this key is not known; did you mean "size"/,
    ],
  ])("%s is bad input", async (argv, message) => {
    const ran = await command(["compare", "frame.yaml", ...argv], folder);
    expect([ran.code, ran.out]).toEqual([2, ""]);
    expect(ran.err).toMatch(message);
  });

  it("ends with 1 when nothing fits", async () => {
    expect((await compared("--vary", "deck.width=20,30")).code).toBe(1);
  });

  it("gives the same on several threads, in the same order", async () => {
    const { data } = await compared("--vary", "ducts.*.pipe.size=75,110", "--vary", "deck.length=300..335:5");
    expect(data.variants).toHaveLength(16);
    expect(data.variants.map(({ values }) => values.join(" ")).slice(7, 9)).toEqual(["75 335", "110 300"]);
    const one = (await compared("--vary", "ducts.*.pipe.size=110", "--vary", "deck.length=335")).data;
    expect(data.variants.at(-1)).toEqual(one.variants[0]);
  }, 120_000);
});
