import { describe, expect, it } from "vitest";
import { costCsv } from "../../packages/cli/src/output/cost-csv.js";
import { hardwareCsv } from "../../packages/cli/src/output/hardware-csv.js";
import { estimateOf, frameOf } from "./cost-fixture.js";
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
      "stock length, sawn into the pieces above",
    ]);
  });
});
