import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { command, contents, remove, scratch } from "./command-run.js";
import { frame, shop, stock } from "./starter-texts.js";

const HASTE = ["--effort", "0.2"];

let folder = "";
beforeAll(async () => {
  folder = await scratch({ "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop });
});
afterAll(() => remove(folder));

async function filesOf(name: string): Promise<string[]> {
  return [...(await contents(join(folder, name))).keys()];
}

describe("templates on paper", () => {
  it("come on the paper asked for, in any case, with every plate beside the wraps when asked", async () => {
    const options = ["--paper", "a3", "--paper-plates", "--out", "on-a3", ...HASTE];
    const ran = await command(["make", "frame.yaml", ...options], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    expect(await filesOf("on-a3")).toEqual(expect.arrayContaining(["plates.pdf", "wraps.pdf"]));
    // A3 in points of 1/72 inch, either way round (ISO 216: 297 x 420 mm).
    const pdf = await readFile(join(folder, "on-a3/wraps.pdf"), "latin1");
    const [, width = "", height = ""] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf) ?? [];
    const sides = [Number(width), Number(height)].map((points) => (points * 25.4) / 72).sort((a, b) => a - b);
    expect(sides[0]).toBeCloseTo(297, 0);
    expect(sides[1]).toBeCloseTo(420, 0);
  }, 60_000);

  it("come without plates when nobody asks for them", async () => {
    const ran = await command(["make", "frame.yaml", "--out", "plain", ...HASTE], folder);
    expect(ran.code).toBe(0);
    expect(await filesOf("plain")).not.toContain("plates.pdf");
  }, 60_000);
});

describe("a limit on layouts", () => {
  it("is kept, and has one kit planned", async () => {
    const options = ["--kits", "2", "--max-layouts", "1", "--json"];
    const ran = await command(["nest", "frame.yaml", ...options], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const { layouts, plans } = JSON.parse(ran.out) as {
      layouts: { material: string; times: number }[];
      plans: { layoutCount: number; withinMaxLayouts: boolean }[];
    };
    expect(plans.map(({ layoutCount, withinMaxLayouts }) => [layoutCount, withinMaxLayouts])).toEqual(
      plans.map(() => [1, true]),
    );
    expect(new Set(layouts.map(({ material }) => material)).size).toBe(layouts.length);
    const single = await command(["nest", "frame.yaml", "--max-layouts", "1", "--json", ...HASTE], folder);
    expect((JSON.parse(single.out) as { plans: unknown[] }).plans).toHaveLength(plans.length);
  }, 60_000);
});

describe("colours of a shop's own", () => {
  it("are those of the layers in both formats, and a reference layer in the colour of a cut is refused", async () => {
    const coloured = (colours: string): string =>
      shop.replace(/\nfiles:\n/, `\nfiles:\n  layerColours: ${colours}\n`);
    await writeFile(
      join(folder, "red.yaml"),
      coloured('{outline: {svg: "#ff0000", dxf: 1}, opening: {dxf: 5}}'),
    );
    const options = ["--set", "shop=red.yaml", "--out", "red", ...HASTE];
    expect((await command(["make", "frame.yaml", ...options], folder)).code).toBe(0);
    const sheet = (await filesOf("red")).find((name) => /^sheets\/.*\.dxf$/.test(name)) ?? "";
    const dxf = await readFile(join(folder, "red", sheet), "utf8");
    expect(dxf).toMatch(/\n *2\noutline\n(?: *\d+\n.*\n){0,3} *62\n *1\n/);
    expect(dxf).toMatch(/\n *2\nopening\n(?: *\d+\n.*\n){0,3} *62\n *5\n/);
    const svg = await readFile(join(folder, "red", sheet.replace(/dxf$/, "svg")), "utf8");
    expect(svg).toMatch(/<g id="outline" [^>]*stroke="#ff0000"/);
    expect(svg).toMatch(/<g id="opening" [^>]*stroke="#0072b2"/);
    const list = await readFile(join(folder, "red/cutting-list.html"), "utf8");
    expect(list).toContain("&quot;outline&quot; (#ff0000, colour 1 in DXF)");
    await writeFile(join(folder, "clash.yaml"), coloured('{stock: {svg: "#D55E00"}}'));
    const clash = await command(["check", "frame.yaml", "--set", "shop=clash.yaml"], folder);
    expect(clash.code).toBe(2);
    expect(clash.err).toMatch(/files\.layerColours: stock has the colour .* of a cutting layer/);
    // What is not drawn has no colour, and one layer for all cuts has one.
    for (const [name, lines] of [
      ["undrawn", "layerColours: {outline: {dxf: 8}}\n  marks: false\n  stockOutline: false"],
      ["single", 'layerColours: {mark: {svg: "#0072b2"}}\n  layers: single'],
    ] as const) {
      const plain = shop.replace(/\n *(?:marks|stockOutline|layers):[^\n]*/g, "");
      await writeFile(join(folder, `${name}.yaml`), plain.replace(/\nfiles:\n/, `\nfiles:\n  ${lines}\n`));
      const ran = await command(["check", "frame.yaml", "--set", `shop=${name}.yaml`], folder);
      expect([ran.code, ran.err]).toEqual([0, ""]);
    }
  }, 60_000);
});

describe("what a job leaves for the next", () => {
  it("names no offcuts where it leaves none, so that those of an extended list stay", async () => {
    // All sheets lie at hand, and no rest is worth keeping.
    const owned = stock.replace(/(\{id: p[a-z0-9-]+,)(?! material: [^}]*outline)/g, "$1 atHand: 9,");
    await writeFile(
      join(folder, "owned.yaml"),
      `${owned}\noffcutWorth: {length: 5000, width: 5000, percent: 10}\n`,
    );
    const options = ["--set", "stock=owned.yaml", "--out", "leaves", ...HASTE];
    const ran = await command(["make", "frame.yaml", ...options], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const text = await readFile(join(folder, "leaves/offcuts.yaml"), "utf8");
    expect(text).toMatch(/^# Used up: /m);
    expect(text).not.toMatch(/^offcuts:/m);
  }, 60_000);
});

describe("what a shop is told", () => {
  it("is which layers are cut, and what changes in the stock list", async () => {
    const ran = await command(["make", "frame.yaml", "--out", "told", ...HASTE], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const order =
      /Cut the layers &quot;opening&quot; and &quot;outline&quot;, line by line in the order of the file; scribe or engrave &quot;mark&quot; or leave it out; never cut &quot;stock&quot;/;
    expect(await readFile(join(folder, "told/cutting-list.html"), "utf8")).toMatch(order);
    expect(await readFile(join(folder, "told/page.html"), "utf8")).toMatch(order);
    const offcuts = await readFile(join(folder, "told/offcuts.yaml"), "utf8");
    expect(offcuts).toContain("# Used up: 1 of the offcut pvc-5-rest");
  }, 60_000);

  it("is not that lead-ins are wanted on a layer that is left out", async () => {
    await writeFile(
      join(folder, "blind.yaml"),
      shop.replace(/\nfiles:\n/, "\nfiles:\n  marks: false\n  leadIns: {length: 4}\n"),
    );
    const ran = await command(["check", "frame.yaml", "--set", "shop=blind.yaml"], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/blind\.yaml.*files\.leadIns: lead-ins are drawn among the marks/s);
  });
});

describe("make --resume", () => {
  it("goes on from a written folder into another, and is not dearer", async () => {
    const total = async (name: string): Promise<number> => {
      const text = await readFile(join(folder, name, "job.json"), "utf8");
      return (JSON.parse(text) as { estimate: { totals: { groups: { sheet: number } } } }).estimate.totals
        .groups.sheet;
    };
    for (const [name, more] of [
      ["begun", []],
      ["resumed", ["--resume", "begun"]],
    ] as const) {
      const options = ["--kits", "2", "--out", name, ...more, ...HASTE];
      const ran = await command(["make", "frame.yaml", ...options], folder);
      expect([ran.code, ran.err]).toEqual([0, ""]);
    }
    expect(await total("resumed")).toBeLessThanOrEqual(await total("begun"));
    expect((await command(["prove", "resumed"], folder)).code).toBe(0);
  }, 120_000);
});

describe("cost", () => {
  it("compares with another stock list, which --set does not change", async () => {
    await writeFile(join(folder, "dear.yaml"), stock.replace(/(width: \d+, price: )/g, "$19"));
    const options = ["--against-stock", "dear.yaml", "--json", ...HASTE];
    const ran = await command(["cost", "frame.yaml", ...options], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const { against } = JSON.parse(ran.out) as {
      against: { total: { difference: number }; lines: { group: string }[] }[];
    };
    // The sheets alone have another price; what they weigh against each other may change the cutting.
    expect(against[0]?.lines.map(({ group }) => group)).toContain("sheet");
    expect(against[0]?.lines.map(({ group }) => group)).not.toContain("hardware");
    expect(against[0]?.total.difference).not.toBe(0);
  }, 60_000);

  it("compares with another frame as it is written, whatever is set for the first", async () => {
    const options = ["--against", "frame.yaml", "--set", "deck.length=340", "--json", ...HASTE];
    const ran = await command(["cost", "frame.yaml", ...options], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    // Were the other side set too, both would be the same.
    const { against } = JSON.parse(ran.out) as { against: { total: { difference: number } }[] };
    expect(against[0]?.total.difference).not.toBe(0);
  }, 60_000);

  it("says what the other side has no price for, instead of calling it cheaper", async () => {
    await writeFile(
      join(folder, "gaps.yaml"),
      stock.replace("{item: motor outrunner, price: 18}", "{item: anode, price: 1}"),
    );
    const ran = await command(["cost", "frame.yaml", "--against-stock", "gaps.yaml", ...HASTE], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    expect(ran.out).toMatch(/lines without a price +\d+ +\d+/);
    expect(ran.out).toMatch(/motor outrunner +\d+ piece, which has no price/);
    expect(ran.out).toMatch(/Of the other:.*motor outrunner/s);
  }, 60_000);

  it("plans even one kit where a sheet is sold by the dozen only", async () => {
    const dozens = stock.replace("price: 19}", "price: 19, minimumOrder: 12}");
    await writeFile(join(folder, "dozens.yaml"), dozens);
    const ran = await command(
      ["cost", "frame.yaml", "--set", "stock=dozens.yaml", "--json", ...HASTE],
      folder,
    );
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const { estimates } = JSON.parse(ran.out) as {
      estimates: { material: { sheets: { stock: string; bought: number }[] }[] }[];
    };
    const bought = estimates[0]?.material.flatMap(({ sheets }) => sheets.filter((use) => use.bought > 0));
    expect(bought?.map((use) => use.stock)).toContain("pe-10-large");
    expect(bought?.map((use) => use.stock)).not.toContain("pe-10-small");
  }, 60_000);

  it("writes a folder without drawings, which prove says", async () => {
    const ran = await command(["cost", "frame.yaml", "--out", "tables", ...HASTE], folder);
    expect(ran.code).toBe(0);
    const proof = await command(["prove", "tables"], folder);
    expect([proof.code, proof.out]).toEqual([2, ""]);
    expect(proof.err).toContain("holds no drawings");
  }, 60_000);
});
