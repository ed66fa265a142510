import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { command, contents, remove, scratch } from "./command-run.js";
import { frame, shop, stock } from "./starter-texts.js";

/** The least search there is: what is tested is what the command makes of its layouts. */
const HASTE = ["--effort", "0.1"];

let folder = "";
beforeAll(async () => {
  folder = await scratch({ "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop });
});
afterAll(() => remove(folder));

interface Money {
  readonly total: number;
}

interface Told {
  readonly ok: boolean;
  readonly estimates: readonly { kits: number; totals: Money; perKit: Money }[];
  readonly comparison: { kits: number[]; steps: { from: number; to: number; lines: object[] }[] };
  readonly against?: readonly { kits: number; total: { difference: number }; lines: { group: string }[] }[];
}

describe("cost", () => {
  it("stands side by side for several numbers of kits, cheaper each for more, in any order asked", async () => {
    const ran = await command(["cost", "frame.yaml", "--kits", "4,1", ...HASTE], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    expect(ran.out).toMatch(/^EUR +1 kit +4 kits$/m);
    const [, one = "", four = ""] = /^a kit:$[\s\S]*^ +total +([\d.]+) +([\d.]+)$/m.exec(ran.out) ?? [];
    expect(Number(four)).toBeGreaterThan(0);
    expect(Number(four)).toBeLessThan(Number(one));
    expect(ran.out).toMatch(/^ {2}1 -> 4 kits: -/m);
  }, 300_000);

  it("shows the difference to another shop, for programs too, and writes tables, workbooks and a page", async () => {
    const rate = /perHour: *([\d.]+)/.exec(shop)?.[1];
    expect(Number(rate)).toBeGreaterThan(0);
    await writeFile(
      join(folder, "other #2: dear.yaml"),
      shop.replace(`perHour: ${rate}`, `perHour: ${Number(rate) + 10}`),
    );
    const options = [
      "--kits",
      "1,3",
      "--against-shop",
      "other #2: dear.yaml",
      "--out",
      "costs",
      "--json",
      ...HASTE,
    ];
    const ran = await command(["cost", "frame.yaml", ...options], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const told = JSON.parse(ran.out) as Told;
    expect(told.estimates.map(({ kits }) => kits)).toEqual([1, 3]);
    expect(told.comparison.steps.map(({ from, to }) => [from, to])).toEqual([[1, 3]]);
    expect(told.against?.map(({ kits }) => kits)).toEqual([1, 3]);
    for (const { total, lines } of told.against ?? []) {
      expect(total.difference).toBeGreaterThan(0);
      expect(lines.map(({ group }) => group)).not.toContain("hardware");
    }
    const written = [...(await contents(join(folder, "costs"))).keys()];
    const each = [1, 3].flatMap((kits) => [`cost-${kits}.csv`, `cost-${kits}.xlsx`, `hardware-${kits}.csv`]);
    expect(written).toEqual(
      [...each, "difference.csv", "job.json", "kits.csv", "page.html", "steps.csv"].toSorted(),
    );
    const difference = await readFile(join(folder, "costs/difference.csv"), "utf8");
    const total = difference
      .split("\r\n")
      .find((line) => line.startsWith("3,sum,total,"))
      ?.split(",");
    expect(Number(total?.[8])).toBe((told.against?.[1]?.total.difference ?? Number.NaN) / 100);
    const page = await readFile(join(folder, "costs/page.html"), "utf8");
    expect(page).not.toMatch(/Cut files|compensated/);
    expect(page).toContain("Cost of one kit by number of kits");
    expect(page).toContain("What changes a kit most");
  }, 300_000);

  it("refuses a comparison it cannot read, before any search", async () => {
    const ran = await command(["cost", "frame.yaml", "--against", "nowhere.yaml"], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain("nowhere.yaml");
  });
});

describe("what an estimate stands on", () => {
  interface Estimates {
    readonly estimates: readonly {
      readonly assumptions: readonly { what: string; source: string; defaulted: boolean }[];
    }[];
  }
  const sources = async (...options: string[]): Promise<Map<string, string>> => {
    const ran = await command(["cost", "frame.yaml", "--json", ...options, ...HASTE], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const [estimate] = (JSON.parse(ran.out) as Estimates).estimates;
    return new Map((estimate?.assumptions ?? []).map(({ what, source }) => [what, source]));
  };

  it("says which file a figure is from, or that it was asked for", async () => {
    await writeFile(join(folder, "spared.yaml"), `${stock}\nselling: {spares: {plates: 10}}\n`);
    const listed = await sources("--set", "stock=spared.yaml");
    expect(listed.get("spares, plates")).toMatch(/^stock list, selling\.spares;/);
    expect(listed.get("cutting.kerf")).toBe("shop profile");
    const asked = await sources("--spares", "10", "--set", "cutting.kerf=4", "--set", "cutting.clearance=6");
    expect(asked.get("spares, plates")).toMatch(/^asked for;/);
    expect(asked.get("cutting.kerf")).toBe("frame file: cutting.kerf");
    expect(asked.get("cutting.safetyGap")).toBe("frame file: cutting.clearance");
    expect((await sources()).get("spares, plates")).toMatch(/^none: the stock list says nothing;/);
  }, 60_000);

  it("is no lack of a price where the shop charges by the metre", async () => {
    const metres = shop
      .replace("material: PVC-U,", "material: PVCU,")
      .replace(/\ncharges:\n/, "\ncharges:\n  perMetre: 2\n");
    await writeFile(join(folder, "metres.yaml"), metres);
    const ran = await command(["check", "frame.yaml", "--json", "--set", "shop=metres.yaml"], folder);
    const { findings } = JSON.parse(ran.out) as {
      findings: { id: string; severity: string; message: string }[];
    };
    expect(findings.filter(({ id }) => id === "cost.no-price")).toEqual([]);
    expect(findings.find(({ id }) => id === "cost.no-feed")).toMatchObject({ severity: "note" });
  });

  it("is foreseen by check without a shop too, as far as pieces are too long", async () => {
    await writeFile(join(folder, "short.yaml"), stock.replace(/(rod DIN 976 M6, length: )1000/, "$1200"));
    const alone = frame.replace(/\nshop:[^\n]*/, "\ncutting: {method: router, kerf: 3}");
    await writeFile(join(folder, "alone.yaml"), alone);
    const ran = await command(["check", "alone.yaml", "--json", "--set", "stock=short.yaml"], folder);
    expect([ran.code, ran.err]).toEqual([1, ""]);
    expect(ran.out).toContain("cost.stock-short");
  });

  it("is foreseen by check where no layout changes it", async () => {
    await writeFile(join(folder, "short.yaml"), stock.replace(/(rod DIN 976 M6, length: )1000/, "$1200"));
    await writeFile(join(folder, "slow.yaml"), shop.replace("material: PVC-U,", "material: PVCU,"));
    const settings = ["--set", "stock=short.yaml", "--set", "shop=slow.yaml"];
    const ran = await command(["check", "frame.yaml", "--json", ...settings], folder);
    expect(ran.code).toBe(1);
    const { findings } = JSON.parse(ran.out) as {
      findings: { id: string; place: string; message: string }[];
    };
    expect(findings.find(({ id }) => id === "cost.stock-short")).toMatchObject({
      place: "rod DIN 976 M6",
      message: expect.stringContaining("longer than the longest length sold, 200 mm"),
    });
    expect(findings.find(({ id }) => id === "cost.no-price")?.place).toMatch(/^PVC-U /);
  });
});

describe("cost of one frame in two currencies", () => {
  it("is refused before any search, naming the option", async () => {
    await writeFile(join(folder, "stock-usd.yaml"), stock.replace("currency: EUR", "currency: USD"));
    await writeFile(join(folder, "shop-usd.yaml"), shop.replace("currency: EUR", "currency: USD"));
    const options = ["--against-stock", "stock-usd.yaml", "--against-shop", "shop-usd.yaml"];
    const ran = await command(["cost", "frame.yaml", ...options], folder);
    expect([ran.code, ran.out]).toEqual([2, ""]);
    expect(ran.err).toMatch(/^--against-shop, --against-stock: .* is priced in USD, .* in EUR/);
  });

  it("tells scripts what was found, and people once what has no price", async () => {
    const bare = stock.replace("  - {item: motor outrunner, price: 18}\n", "");
    expect(bare).not.toBe(stock);
    await writeFile(join(folder, "bare.yaml"), bare);
    const options = ["--set", "stock=bare.yaml", "--kits", "1,2", ...HASTE];
    const { findings } = JSON.parse(
      (await command(["cost", "frame.yaml", "--json", ...options], folder)).out,
    ) as {
      findings: { id: string; place: string }[];
    };
    const places = findings.filter(({ id }) => id === "cost.no-price").map(({ place }) => place);
    expect(places).toContain("motor outrunner");
    expect(new Set(places).size).toBe(places.length);
    const { out } = await command(["cost", "frame.yaml", ...options], folder);
    expect(out).toMatch(/^without .*motor outrunner.*: no price in the stock list$/m);
    expect(out).not.toMatch(/warning.*motor outrunner/);
  }, 60_000);
});

describe("make", () => {
  it("charts the cost of a kit for several kits, and not for one", async () => {
    for (const [kits, charted] of [
      [1, false],
      [2, true],
    ] as const) {
      const ran = await command(
        ["make", "frame.yaml", "--kits", `${kits}`, "--out", `made-${kits}`, ...HASTE],
        folder,
      );
      expect([ran.code, ran.err]).toEqual([0, ""]);
      const page = await readFile(join(folder, `made-${kits}/page.html`), "utf8");
      expect(page.includes("Cost of one kit by number of kits")).toBe(charted);
    }
  }, 300_000);
});
