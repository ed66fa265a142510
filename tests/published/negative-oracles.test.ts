import {
  capScrew,
  catalog,
  clearanceHole,
  hexNut,
  motorPattern,
  outsideTolerance,
  pipe,
  plainWasher,
  thread,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

/** Wrong numbers that are in public circulation: the tables must not repeat them. */
describe("Wrong public numbers", () => {
  test("M12 clearance is not 14 and 15 (rows of the standard that ISO 273 replaced)", () => {
    const holes = (["fine", "medium", "coarse"] as const).map((series) => clearanceHole("M12", series));
    expect(holes).toEqual([13, 13.5, 14.5]);
    expect(holes).not.toContain(14);
    expect(holes).not.toContain(15);
  });

  test("an M10 washer does not have a bore of 10: it would not pass the thread", () => {
    expect(plainWasher("M10").bore).toBe(10.5);
    expect(plainWasher("M10").bore).toBeGreaterThan(thread("M10").majorMax);
  });

  test("PN10 is not one diameter-to-wall ratio for all sizes (ISO 1452-2)", () => {
    const ratio = (size: number) =>
      size / pipe({ standard: "EN ISO 1452-2", size: String(size), series: "PN10" }).nominalWall;
    expect(ratio(90)).toBeCloseTo(21, 0);
    expect(ratio(110)).toBeCloseTo(26, 0);
  });

  test("PN10 at 110 differs between two standards: 4.2 and 5.3", () => {
    const wall = (standard: string) => pipe({ standard, size: "110", series: "PN10" }).nominalWall;
    expect(wall("EN ISO 1452-2")).toBe(4.2);
    expect(wall("DIN 8062")).toBe(5.3);
  });

  test("grade C of ISO 11922-1 ends at 2.0, not 20", () => {
    expect(outsideTolerance(2000, "C")).toBe(2);
  });

  test("a motor pattern 16x19 is a cross of two circles, not a rectangle", () => {
    expect(motorPattern("stator 22").pattern).toEqual({ kind: "cross", diameters: [16, 19] });
    const motors = catalog().find(({ id }) => id === "motor-patterns");
    const crosses = motors?.rows.filter((row) => String(row[1]).startsWith("cross")) ?? [];
    expect(crosses.length).toBeGreaterThanOrEqual(4);
    for (const row of motors?.rows ?? []) {
      // Only the square stepper flanges are rectangles.
      if (String(row[1]).startsWith("rectangle")) expect(String(row[0])).toMatch(/^NEMA/);
    }
  });

  test("a cap-screw head is the knurled one, wider than most charts print", () => {
    expect(capScrew("M3").headDiameterMax).not.toBe(5.5);
    expect(capScrew("M3").headDiameterMax).toBe(5.68);
  });

  test("nuts are ISO 4032, not the lower DIN 934 with 17 and 19 flats", () => {
    expect([hexNut("M5").heightMax, hexNut("M6").heightMax]).toEqual([4.7, 5.2]);
    expect([hexNut("M10").acrossFlats, hexNut("M12").acrossFlats]).toEqual([16, 18]);
  });

  test("coarse pitches are ISO, not the 0.45, 0.75 and 0.9 of old charts", () => {
    expect(["M2", "M4", "M5"].map((name) => thread(name).pitch)).toEqual([0.4, 0.7, 0.8]);
  });
});
