import { describe, expect, it } from "vitest";
import { compareEstimates, compareKits } from "../../packages/cli/src/cost/index.js";
import { costWorkbook } from "../../packages/cli/src/output/cost-workbook.js";
import { kitsCsv, stepsCsv } from "../../packages/cli/src/output/kits-csv.js";
import { differenceText, kitsText } from "../../packages/cli/src/screen/kits-text.js";
import { estimateOf, shopOf, stockOf } from "./cost-fixture.js";
import { readWorkbook } from "./cost-workbook-reader.js";

const COUNTS = [1, 2, 3, 5, 8, 13, 30];

async function estimates(offcutWorth?: object) {
  const stockList = stockOf(offcutWorth === undefined ? {} : { offcutWorth });
  return Promise.all(COUNTS.map((kits) => estimateOf(kits, { stockList })));
}

describe("numbers of kits side by side", () => {
  it("explains every step of the cost of a kit by its lines, to the last part of a cent", async () => {
    for (const worth of [undefined, { length: 150, width: 150, percent: 40 }]) {
      const all = await estimates(worth);
      const { steps } = compareKits(all);
      expect(steps).toHaveLength(COUNTS.length - 1);
      for (const [index, step] of steps.entries()) {
        const [before, after] = [all[index], all[index + 1]];
        if (before === undefined || after === undefined) throw new Error("no estimate");
        const change = after.totals.total / after.kits - before.totals.total / before.kits;
        expect(step.lines.reduce((sum, line) => sum + line.perKit, 0)).toBeCloseTo(change, 6);
        expect(step.perKit).toBe(after.perKit.total - before.perKit.total);
        const sizes = step.lines.map((line) => Math.abs(line.perKit));
        expect(sizes).toEqual(sizes.toSorted((a, b) => b - a));
      }
    }
  });

  it("weighs the yield of materials by the area of their sheets", async () => {
    const [one] = await estimates();
    const [use] = one?.material ?? [];
    if (one === undefined || use === undefined) throw new Error("no material");
    const large = { ...use, yield: 0.8, sheetCount: 1, sheetArea: 2_000_000 };
    const small = { ...use, yield: 0.3, sheetCount: 1, sheetArea: 250_000 };
    const { job } = compareKits([{ ...one, material: [large, small] }]);
    expect(job.find(({ what }) => what === "yield")?.values[0]).toBeCloseTo(1.675 / 2.25, 9);
  });

  it("does not tell layouts apart that each number of kits numbers anew", async () => {
    const { steps } = compareKits(await estimates());
    const cuts = steps.flatMap(({ lines }) => lines.filter((line) => line.group === "cutting"));
    expect(cuts.length).toBeGreaterThan(0);
    for (const { item, before, after } of cuts) {
      expect(item).not.toContain("layout");
      expect([before, after]).not.toContain(undefined);
    }
  });

  it("adds up in the written tables", async () => {
    const comparison = compareKits(await estimates());
    const rows = (text: string): string[][] =>
      text
        .trim()
        .split("\r\n")
        .map((line) => line.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/));
    const [head = [], ...figures] = rows(kitsCsv(comparison));
    expect(head).toEqual(["of", "figure", "unit", ...COUNTS.map((kits) => `kits_${kits}`)]);
    const values = (what: string): number[] =>
      (figures.find((row) => row[0] === "kit" && row[1] === what) ?? []).slice(3).map(Number);
    const totals = values("total");
    expect(totals).toHaveLength(COUNTS.length);
    const [, ...steps] = rows(stepsCsv(comparison));
    COUNTS.slice(1).forEach((kits, index) => {
      const change = steps
        .filter((row) => row[1] === String(kits))
        .reduce((sum, row) => sum + Number(row[9]), 0);
      // The printed totals are rounded to the cent.
      expect(Math.abs(change - ((totals[index + 1] ?? 0) - (totals[index] ?? 0)))).toBeLessThan(0.011);
    });
  });

  it("stands in the workbook on a sheet of its own", async () => {
    const all = await estimates();
    const comparison = compareKits(all);
    const last = all.at(-1);
    if (last === undefined) throw new Error("no estimate");
    const book = await readWorkbook(await costWorkbook(last, comparison));
    const sheet = book.getWorksheet("Kits");
    const totals: unknown[] = [];
    sheet?.eachRow((row) => {
      if (row.getCell(1).value === "total")
        totals.push(COUNTS.map((_, index) => row.getCell(index + 2).value));
    });
    expect(totals).toEqual([
      all.map((each) => each.totals.total / 100),
      all.map((each) => each.perKit.total / 100),
    ]);
    expect((await readWorkbook(await costWorkbook(last))).getWorksheet("Kits")).toBeUndefined();
  });

  it("reads well on a screen", async () => {
    const [one, five] = [await estimateOf(1), await estimateOf(5)];
    const text = kitsText(compareKits([five, one]), 100);
    expect(text).toMatch(/^EUR +1 kit +5 kits$/m);
    expect(text).toMatch(/^ {2}machine hours +[\d.]+ +[\d.]+$/m);
    expect(text).toMatch(/^a kit:$/m);
    expect(text).toMatch(/^ {2}1 -> 5 kits: -[\d.]+: .*\(/m);
    expect(text.split("\n").every((line) => line.length <= 100)).toBe(true);
    expect(kitsText(compareKits([one]), 100)).not.toContain("->");
  });
});

describe("one estimate against another", () => {
  it("shows both, their difference, and only the lines that differ", async () => {
    const here = await estimateOf(3);
    const there = await estimateOf(3, { shop: shopOf({ charges: { perHour: 80 } }) });
    const text = differenceText(compareEstimates(here, there), ["this", "other"]);
    expect(text).toMatch(/^EUR +this +other +difference$/m);
    const [, before, after, difference] = /^total +([\d.]+) +([\d.]+) +\+([\d.]+)$/m.exec(text) ?? [];
    expect(Number(after) - Number(before)).toBeCloseTo(Number(difference), 9);
    expect(text).toContain("at 80 (was 62.5)");
    expect(text).not.toMatch(/^hardware:/m);
    expect(differenceText(compareEstimates(here, here), ["this", "other"])).toContain("No line differs.");
  });
});
