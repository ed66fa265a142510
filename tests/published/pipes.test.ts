import {
  catalog,
  largestOutside,
  outsideTolerance,
  pipe,
  smallestBore,
  wallFromRatio,
  wallTolerance,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

const inch = 25.4;

/** ASTM D1785 in its own inches, so that the millimetres of the table are checked and not copied. */
describe("ASTM D1785 tables 1 and 2: OD, Schedule 40 wall, Schedule 80 wall, inches", () => {
  test.each([
    ["1/2", 0.84, 0.004, 0.109, 0.129, 0.147, 0.167],
    ["3/4", 1.05, 0.004, 0.113, 0.133, 0.154, 0.174],
    ["1", 1.315, 0.005, 0.133, 0.153, 0.179, 0.2],
    ["1-1/4", 1.66, 0.005, 0.14, 0.16, 0.191, 0.214],
    ["1-1/2", 1.9, 0.006, 0.145, 0.165, 0.2, 0.224],
    ["2", 2.375, 0.006, 0.154, 0.174, 0.218, 0.244],
    ["2-1/2", 2.875, 0.007, 0.203, 0.227, 0.276, 0.309],
    ["3", 3.5, 0.008, 0.216, 0.242, 0.3, 0.336],
    ["4", 4.5, 0.009, 0.237, 0.265, 0.337, 0.377],
    ["5", 5.563, 0.01, 0.258, 0.289, 0.375, 0.42],
    ["6", 6.625, 0.011, 0.28, 0.314, 0.432, 0.484],
  ])("%s", (size, outside, plusMinus, min40, max40, min80, max80) => {
    const schedule40 = pipe({ standard: "ASTM D1785", size, series: "Schedule 40" });
    const schedule80 = pipe({ standard: "ASTM D1785", size, series: "Schedule 80" });
    for (const [found, printed] of [
      [schedule40.nominalOutside, outside],
      [schedule40.outsideMin, outside - plusMinus],
      [schedule40.outsideMax, outside + plusMinus],
      [schedule40.wallMin, min40],
      [schedule40.wallMax, max40],
      [schedule80.nominalOutside, outside],
      [schedule80.wallMin, min80],
      [schedule80.wallMax, max80],
    ] as const) {
      // The metric columns are rounded to 0.01 in the standard, not always the same way.
      expect(Math.abs(found - printed * inch)).toBeLessThan(0.0101);
    }
  });

  test("6 in Schedule 40 is 6.614 to 6.636 in outside", () => {
    const { outsideMin, outsideMax } = pipe({ standard: "ASTM D1785", size: "6" });
    expect(outsideMin / inch).toBeCloseTo(6.614, 3);
    expect(outsideMax / inch).toBeCloseTo(6.636, 3);
  });

  // Largest minus smallest diameter, inches: Schedule 40, Schedule 80. The first from NPS 4 up from memory.
  test.each([
    ["1/2", 0.016, 0.016],
    ["3/4", 0.02, 0.02],
    ["1", 0.02, 0.02],
    ["1-1/4", 0.024, 0.024],
    ["1-1/2", 0.024, 0.024],
    ["2", 0.024, 0.024],
    ["2-1/2", 0.03, 0.03],
    ["3", 0.03, 0.03],
    ["4", 0.1, 0.03],
    ["5", 0.1, 0.06],
    ["6", 0.1, 0.07],
  ])("%s may be %d or %d in out of round", (size, in40, in80) => {
    const ovality = (series: string) => pipe({ standard: "ASTM D1785", size, series }).ovality;
    expect(Math.abs(ovality("Schedule 40") - in40 * inch)).toBeLessThan(0.0051);
    expect(Math.abs(ovality("Schedule 80") - in80 * inch)).toBeLessThan(0.0051);
  });
});

describe("EN 1401-1, least walls: SN2 (SDR 51), SN4 (SDR 41), SN8 (SDR 34)", () => {
  test.each([
    ["110", undefined, 3.2, 3.2],
    ["125", undefined, 3.2, 3.7],
    ["160", 3.2, 4.0, 4.7],
    ["200", 3.9, 4.9, 5.9],
  ])("dn %s", (size, sn2, sn4, sn8) => {
    const wall = (series: string) => pipe({ standard: "EN 1401-1", size, series }).wallMin;
    if (sn2 === undefined) expect(() => wall("SN2")).toThrow("SN2");
    else expect(wall("SN2")).toBe(sn2);
    expect(wall("SN4")).toBe(sn4);
    expect(wall("SN8")).toBe(sn8);
  });
});

/** DIN 8062 prints least and largest walls: the pairs prove the wall tolerance that EN pipe borrows. */
describe("DIN 8062, wall pairs", () => {
  test.each([
    ["32", "PN10", 1.8, 2.2],
    ["32", "PN16", 2.4, 2.9],
    ["40", "PN10", 1.9, 2.3],
    ["50", "PN10", 2.4, 2.9],
    ["63", "PN10", 3, 3.5],
    ["63", "PN16", 4.7, 5.4],
    ["75", "PN4", 1.8, 2.2],
    ["75", "PN6", 2.2, 2.7],
    ["75", "PN10", 3.6, 4.2],
    ["75", "PN16", 5.6, 6.4],
    ["90", "PN6", 2.7, 3.2],
    ["90", "PN10", 4.3, 5],
    ["90", "PN16", 6.7, 7.6],
    ["110", "PN4", 2.2, 2.7],
    ["110", "PN6", 3.2, 3.8],
    ["110", "PN10", 5.3, 6.1],
    ["110", "PN16", 8.2, 9.3],
    ["125", "PN4", 2.5, 3],
    ["125", "PN10", 6, 6.8],
    ["125", "PN16", 9.3, 10.5],
    ["160", "PN4", 3.2, 3.8],
    ["160", "PN6", 4.7, 5.4],
    ["160", "PN10", 7.7, 8.7],
    ["160", "PN16", 11.9, 13.3],
  ])("%s %s: %d to %d", (size, series, least, largest) => {
    const found = pipe({ standard: "DIN 8062", size, series });
    expect(found.wallMin).toBe(least);
    expect(found.wallMax).toBe(largest);
  });
});

describe("Tables from memory, typed twice", () => {
  const wallOf = (standard: string, size: string, series: string) => pipe({ standard, size, series }).wallMin;
  const plusOf = (standard: string, size: string) => {
    const { outsideMin, outsideMax } = pipe({ standard, size });
    return outsideMax - outsideMin;
  };

  // EN 1329-1 table 3: dn, plus on the diameter, walls of B and BD.
  test.each([
    ["32", 0.2, 3, undefined],
    ["40", 0.2, 3, undefined],
    ["50", 0.2, 3, undefined],
    ["63", 0.2, 3, undefined],
    ["75", 0.3, 3, 3],
    ["90", 0.3, 3, 3],
    ["110", 0.3, 3.2, 3.2],
    ["125", 0.3, 3.2, 3.2],
    ["160", 0.4, 3.2, 4],
  ])("EN 1329-1 %s", (size, plus, b, bd) => {
    expect(plusOf("EN 1329-1", size)).toBeCloseTo(plus, 9);
    expect(wallOf("EN 1329-1", size, "B")).toBe(b);
    if (bd === undefined) expect(() => wallOf("EN 1329-1", size, "BD")).toThrow("BD");
    else expect(wallOf("EN 1329-1", size, "BD")).toBe(bd);
    expect(pipe({ standard: "EN 1329-1", size }).series).toBe("B");
  });

  // EN 1451-1 tables 3 and 4: dn, plus on the diameter, walls of S20 and S16.
  test.each([
    ["32", 0.3, 1.8, 1.8],
    ["40", 0.3, 1.8, 1.8],
    ["50", 0.3, 1.8, 1.8],
    ["75", 0.4, 1.9, 2.3],
    ["90", 0.4, 2.2, 2.8],
    ["110", 0.4, 2.7, 3.4],
    ["125", 0.4, 3.1, 3.9],
    ["160", 0.5, 3.9, 4.9],
  ])("EN 1451-1 %s", (size, plus, s20, s16) => {
    expect(plusOf("EN 1451-1", size)).toBeCloseTo(plus, 9);
    expect(wallOf("EN 1451-1", size, "S20")).toBe(s20);
    expect(wallOf("EN 1451-1", size, "S16")).toBe(s16);
  });

  // ISO 1452-2 tables 1 and 2: dn, plus on the diameter, walls of PN10 and PN16.
  test.each([
    ["32", 0.2, 1.6, 2.4],
    ["40", 0.2, 1.9, 3],
    ["50", 0.2, 2.4, 3.7],
    ["63", 0.3, 3, 4.7],
    ["75", 0.3, 3.6, 5.6],
    ["90", 0.3, 4.3, 6.7],
    ["110", 0.4, 4.2, 6.6],
    ["125", 0.4, 4.8, 7.4],
    ["160", 0.5, 6.2, 9.5],
  ])("EN ISO 1452-2 %s", (size, plus, pn10, pn16) => {
    expect(plusOf("EN ISO 1452-2", size)).toBeCloseTo(plus, 9);
    expect(wallOf("EN ISO 1452-2", size, "PN10")).toBe(pn10);
    expect(wallOf("EN ISO 1452-2", size, "PN16")).toBe(pn16);
  });

  // EN 1401-1 and DIN 8062: plus on the diameter.
  test.each([
    ["EN 1401-1", "110", 0.3],
    ["EN 1401-1", "125", 0.3],
    ["EN 1401-1", "160", 0.4],
    ["DIN 8062", "63", 0.2],
    ["DIN 8062", "75", 0.3],
    ["DIN 8062", "110", 0.3],
    ["DIN 8062", "160", 0.4],
  ])("%s %s: +%d", (standard, size, plus) => {
    expect(plusOf(standard, size)).toBeCloseTo(plus, 9);
  });

  // Ovality: 0.024 dn for drain pipe; ISO 11922-1 grade N for pressure pipe, 0.008 dn + 1 to 75, 0.02 dn above.
  test.each([
    ["EN 1329-1", "75", 1.8],
    ["EN 1401-1", "110", 2.64],
    ["EN ISO 1452-2", "63", 1.5],
    ["EN ISO 1452-2", "75", 1.6],
    ["EN ISO 1452-2", "90", 1.8],
    ["DIN 8062", "110", 2.2],
    ["DIN 8062", "160", 3.2],
  ])("%s %s may be %d mm out of round", (standard, size, ovality) => {
    expect(pipe({ standard, size }).ovality).toBeCloseTo(ovality, 2);
  });
});

describe("ISO 4065: wall = dn / SDR rounded up to 0.1", () => {
  test.each([
    [110, 41, 2.7],
    [125, 41, 3.1],
    [160, 41, 4.0],
    [63, 21, 3.0],
    [110, 26, 4.3],
    [160, 17, 9.5],
  ])("dn %d, SDR %d: %d", (dn, sdr, wall) => {
    expect(wallFromRatio(dn, sdr)).toBeCloseTo(wall, 9);
  });

  test("the product standard rounds 160 SDR 34 to 4.7, the relation to 4.8: the table wins", () => {
    expect(wallFromRatio(160, 34)).toBeCloseTo(4.8, 9);
    expect(pipe({ standard: "EN 1401-1", size: "160", series: "SN8" }).wallMin).toBe(4.7);
  });

  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("refuses a diameter of %d", (dn) => {
    expect(() => wallFromRatio(dn, 41)).toThrow(RangeError);
    expect(() => outsideTolerance(dn, "C")).toThrow(RangeError);
    expect(() => wallTolerance(dn)).toThrow(RangeError);
  });
});

describe("ISO 11922-1: tolerance of the outside diameter", () => {
  test.each([
    [63, 0.3],
    [110, 0.4],
    [160, 0.5],
  ])("grade C at %d is %d, as EN ISO 1452-2 has it", (dn, tolerance) => {
    expect(outsideTolerance(dn, "C")).toBeCloseTo(tolerance, 9);
    const row = pipe({ standard: "EN ISO 1452-2", size: String(dn) });
    expect(row.outsideMax - dn).toBeCloseTo(tolerance, 9);
  });

  test("grade C ends at 2.0, not 20", () => {
    expect(outsideTolerance(1000, "C")).toBe(2);
    expect(outsideTolerance(6000, "C")).toBe(2);
  });
});

describe("What a carrier and a clip must allow for", () => {
  test("the smallest bore of EN 1329-1 75: 75 - 0.024 x 75 / 2 - 2 x 3.5", () => {
    expect(smallestBore(pipe({ standard: "EN 1329-1", size: "75" }))).toBeCloseTo(67.1, 9);
  });

  test("the largest outside of 6 in Schedule 40: 168.28 + 0.28 + 2.54 / 2", () => {
    expect(largestOutside(pipe({ standard: "ASTM D1785", size: "6" }))).toBeCloseTo(169.83, 9);
  });

  test("a nominal metric diameter is the least mean diameter, in every row", () => {
    const metric = catalog().filter(({ id }) => /^(en-1|en-iso-1452|din-8062)/.test(id));
    expect(metric.length).toBe(5);
    for (const { columns, rows } of metric) {
      expect(rows.length).toBeGreaterThan(8);
      for (const row of rows) {
        expect(row[columns.indexOf("outsideMin")]).toBe(row[columns.indexOf("nominalOutside")]);
        expect(Number(row[columns.indexOf("outsideMax")])).toBeGreaterThan(
          Number(row[columns.indexOf("outsideMin")]),
        );
      }
    }
  });
});

describe("Names", () => {
  test("say what is bought", () => {
    expect(pipe({ standard: "EN 1329-1", size: "75" }).designation).toBe("EN 1329-1 75x3");
    expect(pipe({ standard: "ASTM D1785", size: "1-1/2", series: "Schedule 80" }).designation).toBe(
      "ASTM D1785 1-1/2 Schedule 80",
    );
  });

  test("a series that was not asked for is stated as assumed", () => {
    expect(pipe({ standard: "EN 1401-1", size: "110" })).toMatchObject({
      series: "SN4",
      seriesAssumed: true,
    });
    expect(pipe({ standard: "EN 1401-1", size: "110", series: "SN8" }).seriesAssumed).toBe(false);
    expect(pipe({ standard: "EN 1329-1", size: "50" }).seriesAssumed).toBe(false);
  });

  test("unknown standard, size and series are told apart, nearest first", () => {
    const thrown = (standard: string, size: string, series?: string) => {
      try {
        pipe({ standard, size, series });
      } catch (error) {
        return error;
      }
      return undefined;
    };
    expect(thrown("EN 1329", "75")).toMatchObject({ table: "Pipe standards", asked: "EN 1329" });
    expect(thrown("EN 1329", "75")).toHaveProperty("nearest.0", "EN 1329-1");
    expect(thrown("EN 1329-1", "80")).toHaveProperty("nearest", ["75", "90", "63"]);
    expect(thrown("EN 1401-1", "110", "SN16")).toHaveProperty("nearest", ["SN4", "SN8"]);
  });
});
