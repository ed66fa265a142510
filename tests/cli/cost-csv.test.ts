import { describe, expect, it } from "vitest";
import { costCsv } from "../../packages/cli/src/output/cost-csv.js";
import { hardwareCsv } from "../../packages/cli/src/output/hardware-csv.js";
import { estimateOf, frameOf, stockOf } from "./cost-fixture.js";
import { parseCsv } from "./parse-csv.js";

describe("CSV", () => {
  it("keeps text that looks like a formula text, and numbers numbers", async () => {
    const evil = ['=HYPERLINK("x")', "+1", "-1", "@SUM(A1)", "\t=1", " =1", "\uff1d1"];
    const hardware = evil.map((item) => ({
      item,
      kind: "other" as const,
      count: 1,
      uses: [{ place: "=1", count: 1, why: 'a "b", c' }],
    }));
    const found = await estimateOf(1, { frame: frameOf({ hardware }) });
    for (const text of [costCsv(found), hardwareCsv(found)]) {
      const cells = parseCsv(text).flat();
      expect(text.endsWith("\r\n")).toBe(true);
      for (const cell of cells) {
        if (/^[\s]*[=+@\uff1d]/.test(cell)) throw new Error(`unsafe cell ${cell}`);
        if (cell.startsWith("-")) expect(Number.isFinite(Number(cell))).toBe(true);
      }
      for (const item of evil) expect(cells).toContain(`'${item}`);
    }
  });

  it("lists hardware with its counts and purposes", async () => {
    const [head, ...rows] = parseCsv(hardwareCsv(await estimateOf(3)));
    expect(head).toEqual([
      "kind",
      "item",
      "length_mm",
      "mass_g",
      "per_kit",
      "kits",
      "spares",
      "job",
      "at_hand",
      "to_buy",
      "order",
      "what_for",
    ]);
    expect(rows[0]).toEqual([
      "screw",
      "screw ISO 4762 M3x20",
      "",
      "1.4",
      "8",
      "3",
      "0",
      "24",
      "5",
      "20",
      "",
      "4 x port: holds the motor; 4 x starboard: holds the motor",
    ]);
    expect(rows[2]).toEqual([
      "rod",
      "rod DIN 976 M6",
      "243.5",
      "43.1",
      "3",
      "3",
      "0",
      "9",
      "",
      "",
      "",
      "3 x port: locks",
    ]);
    // 9 x 243.5 and 3 x 118 with 2 mm cuts: 4 long ones a bar of 1000, so three bars.
    expect(rows.at(-1)).toEqual([
      "rod",
      "rod DIN 976 M6",
      "1000",
      "",
      "",
      "3",
      "",
      "3",
      "0",
      "3",
      "",
      "stock length, sawn into the pieces above",
    ]);
  });

  it("names whom to ask for what, and buys where it costs least", async () => {
    const screw = "screw ISO 4762 M3x20";
    const stockList = stockOf({
      hardware: [
        { item: screw, supplier: "Harbour Fasteners", order: "H-320", pack: 10, price: 1.5 },
        { item: screw, supplier: "Mill Lane Screws", order: "77", pack: 10, price: 1.1 },
        { item: "nut ISO 4032 M6", pack: 100, price: 3.05, mass: 2.5 },
      ],
      lengths: [
        { item: "rod DIN 976 M6", supplier: "Harbour Fasteners", length: 1000, price: 1.79 },
        { item: "rod DIN 976 M6", supplier: "Mill Lane Screws", order: "R6", length: 1000, price: 1.6 },
      ],
    });
    const estimate = await estimateOf(3, { stockList });
    const rows = parseCsv(hardwareCsv(estimate));
    expect(rows.find(([, item]) => item === screw)?.[10]).toBe("3 x 10 Mill Lane Screws 77");
    const bars = rows.filter((row) => row.at(-1)?.startsWith("stock length"));
    expect(bars.map((row) => row[10])).toEqual(["Mill Lane Screws R6"]);
    const from = estimate.lines.map((line) => line.from).filter((text) => text.includes(", from "));
    expect(from).toHaveLength(2);
    expect(rows.find(([, item]) => item === "nut ISO 4032 M6")?.[10]).toBe("");
  });
});
