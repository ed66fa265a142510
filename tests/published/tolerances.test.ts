import { generalTolerance, type ItGrade, itTolerance } from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

describe("ISO 286-1 table 1: IT12 to IT15, mm", () => {
  test.each([
    [3, 0.1, 0.14, 0.25],
    [6, 0.12, 0.18, 0.3],
    [10, 0.15, 0.22, 0.36],
    [18, 0.18, 0.27, 0.43],
    [30, 0.21, 0.33, 0.52],
    [50, 0.25, 0.39, 0.62],
    [80, 0.3, 0.46, 0.74],
    [120, 0.35, 0.54, 0.87],
    [180, 0.4, 0.63, 1],
    [250, 0.46, 0.72, 1.15],
    [315, 0.52, 0.81, 1.3],
  ])("up to %d mm", (size, it12, it13, it14) => {
    expect(itTolerance(size, "IT12")).toBe(it12);
    expect(itTolerance(size, "IT13")).toBe(it13);
    expect(itTolerance(size, "IT14")).toBe(it14);
  });

  // Twice js15, the length tolerance of cap screws: ISO 4762 prints 7.71 to 8.29 for 8, 24.58 to 25.42 for 25, 99.3 to 100.7
  // for 100; DIN 976-1 prints 129.2 to 130.8 for 130.
  test.each([
    [3, 0.4],
    [6, 0.48],
    [8, 0.58],
    [18, 0.7],
    [25, 0.84],
    [50, 1],
    [60, 1.2],
    [100, 1.4],
    [130, 1.6],
    [250, 1.85],
    [315, 2.1],
  ])("IT15 of %d mm is %d", (size, it15) => {
    expect(itTolerance(size, "IT15")).toBe(it15);
  });

  // The standard rounds its values; the farthest from the formula, 4.4 %, is 150 micrometres for 6 to 10 mm.
  // ISO 286-1: i = 0.45 D^(1/3) + 0.001 D micrometres, D the geometric mean of the range; grades are 160, 250, 400 i.
  test.each([
    [3, 6],
    [6, 10],
    [10, 18],
    [18, 30],
    [30, 50],
    [50, 80],
    [80, 120],
    [120, 180],
    [180, 250],
    [250, 315],
  ])("%d to %d mm is within a twentieth of the formula", (over, to) => {
    const d = Math.sqrt(over * to);
    const i = (0.45 * Math.cbrt(d) + 0.001 * d) / 1000;
    const factors: [ItGrade, number][] = [
      ["IT12", 160],
      ["IT13", 250],
      ["IT14", 400],
      ["IT15", 640],
    ];
    for (const [grade, factor] of factors) {
      expect(Math.abs(itTolerance(to, grade) / (factor * i) - 1)).toBeLessThan(0.05);
    }
  });

  test("a size on a boundary belongs to the smaller range, a hair above to the larger", () => {
    expect(itTolerance(50, "IT13")).toBe(0.39);
    expect(itTolerance(50.001, "IT13")).toBe(0.46);
  });

  test.each([0.5, 0, -3, 315.1, Number.NaN, Number.POSITIVE_INFINITY])("refuses a size of %d mm", (size) => {
    expect(() => itTolerance(size, "IT12")).toThrow(RangeError);
  });
});

describe("ISO 2768-1:1989 table 1: f, m, c, v", () => {
  test.each([
    [2, 0.05, 0.1, 0.2, null],
    [5, 0.05, 0.1, 0.3, 0.5],
    [20, 0.1, 0.2, 0.5, 1],
    [100, 0.15, 0.3, 0.8, 1.5],
    [300, 0.2, 0.5, 1.2, 2.5],
    [800, 0.3, 0.8, 2, 4],
    [1500, 0.5, 1.2, 3, 6],
    [3000, null, 2, 4, 8],
  ])("%d mm", (size, f, m, c, v) => {
    expect(generalTolerance(size, "f")).toBe(f);
    expect(generalTolerance(size, "m")).toBe(m);
    expect(generalTolerance(size, "c")).toBe(c);
    expect(generalTolerance(size, "v")).toBe(v);
  });

  test("class c is not the 0.15 and 0.2 that one copy prints", () => {
    expect(generalTolerance(3, "c")).toBe(0.2);
    expect(generalTolerance(6, "c")).toBe(0.3);
  });
});
