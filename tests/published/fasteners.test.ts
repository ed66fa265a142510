import {
  buttonScrew,
  capScrew,
  clearanceHole,
  hexNut,
  itTolerance,
  largeWasher,
  lockNut,
  plainWasher,
  rodStock,
  thinNut,
  thread,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

/** Every row is typed here a second time, from the standard named above it. */
describe("ISO 273:1979, clearance holes: fine H12, medium H13, coarse H14", () => {
  test.each([
    ["M2", 2.2, 2.4, 2.6],
    ["M2.5", 2.7, 2.9, 3.1],
    ["M3", 3.2, 3.4, 3.6],
    ["M4", 4.3, 4.5, 4.8],
    ["M5", 5.3, 5.5, 5.8],
    ["M6", 6.4, 6.6, 7.0],
    ["M8", 8.4, 9.0, 10.0],
    ["M10", 10.5, 11.0, 12.0],
    ["M12", 13.0, 13.5, 14.5],
  ])("%s: %d, %d, %d", (name, fine, medium, coarse) => {
    expect(clearanceHole(name, "fine")).toBe(fine);
    expect(clearanceHole(name, "medium")).toBe(medium);
    expect(clearanceHole(name, "coarse")).toBe(coarse);
  });
});

describe("ISO 4762:2004 table 1, cap screws", () => {
  // dk max knurled, dk max plain, dk min, k max, k min, s, t min, b, shortest, longest.
  test.each([
    ["M2", 3.98, 3.8, 3.62, 2, 1.86, 1.5, 1, 16, 3, 20],
    ["M2.5", 4.68, 4.5, 4.32, 2.5, 2.36, 2, 1.1, 17, 4, 25],
    ["M3", 5.68, 5.5, 5.32, 3, 2.86, 2.5, 1.3, 18, 5, 30],
    ["M4", 7.22, 7, 6.78, 4, 3.82, 3, 2, 20, 6, 40],
    ["M5", 8.72, 8.5, 8.28, 5, 4.82, 4, 2.5, 22, 8, 50],
    ["M6", 10.22, 10, 9.78, 6, 5.7, 5, 3, 24, 8, 60],
    ["M8", 13.27, 13, 12.73, 8, 7.64, 6, 4, 28, 10, 80],
    ["M10", 16.27, 16, 15.73, 10, 9.64, 8, 5, 32, 16, 100],
    ["M12", 18.27, 18, 17.73, 12, 11.57, 10, 6, 36, 20, 120],
  ])("%s", (name, knurled, plain, least, height, lowest, key, depth, thread, shortest, longest) => {
    const screw = capScrew(name);
    expect([screw.headDiameterMax, screw.headDiameterMaxPlain, screw.headDiameterMin]).toEqual([
      knurled,
      plain,
      least,
    ]);
    expect([screw.headHeightMax, screw.headHeightMin]).toEqual([height, lowest]);
    expect([screw.key, screw.socketDepthMin, screw.threadLength]).toEqual([key, depth, thread]);
    expect([screw.lengths[0], screw.lengths.at(-1)]).toEqual([shortest, longest]);
  });

  test.each(["M3", "M4", "M5", "M6", "M8", "M10", "M12"])(
    "%s: the head limits are plain +- IT13 of ISO 286-1",
    (name) => {
      const screw = capScrew(name);
      const it13 = itTolerance(screw.headDiameterMaxPlain, "IT13");
      expect(screw.headDiameterMax).toBeCloseTo(screw.headDiameterMaxPlain + it13, 9);
      expect(screw.headDiameterMin).toBeCloseTo(screw.headDiameterMaxPlain - it13, 9);
    },
  );

  test("M3 is made from 5 to 30 in preferred lengths, 14 and 18 not among them", () => {
    expect(capScrew("M3").lengths).toEqual([5, 6, 8, 10, 12, 16, 20, 25, 30]);
  });
});

describe("ISO 7380-1:2011 table 1, button heads: dk max, k max, s, shortest and longest", () => {
  test.each([
    ["M3", 5.7, 1.65, 2, 6, 30],
    ["M4", 7.6, 2.2, 2.5, 6, 40],
    ["M5", 9.5, 2.75, 3, 8, 50],
    ["M6", 10.5, 3.3, 4, 10, 60],
    ["M8", 14, 4.4, 5, 12, 80],
    ["M10", 17.5, 5.5, 6, 16, 90],
    ["M12", 21, 6.6, 8, 20, 90],
  ])("%s", (name, diameter, height, key, shortest, longest) => {
    const screw = buttonScrew(name);
    expect([screw.headDiameterMax, screw.headHeightMax, screw.key]).toEqual([diameter, height, key]);
    expect([screw.lengths[0], screw.lengths.at(-1)]).toEqual([shortest, longest]);
    // ISO 7380-1 makes every head 0.55 of the thread high.
    expect(screw.headHeightMax).toBeCloseTo(0.55 * thread(name).major, 9);
  });
});

describe("ISO 4032 table 1, hexagon nuts: s max, s min, e min, m max, m min", () => {
  test.each([
    ["M2", 4, 3.82, 4.32, 1.6, 1.35],
    ["M2.5", 5, 4.82, 5.45, 2, 1.75],
    ["M3", 5.5, 5.32, 6.01, 2.4, 2.15],
    ["M4", 7, 6.78, 7.66, 3.2, 2.9],
    ["M5", 8, 7.78, 8.79, 4.7, 4.4],
    ["M6", 10, 9.78, 11.05, 5.2, 4.9],
    ["M8", 13, 12.73, 14.38, 6.8, 6.44],
    ["M10", 16, 15.73, 17.77, 8.4, 8.04],
    ["M12", 18, 17.73, 20.03, 10.8, 10.37],
  ])("%s", (name, sMax, sMin, eMin, mMax, mMin) => {
    const nut = hexNut(name);
    expect([nut.acrossFlats, nut.acrossFlatsMin]).toEqual([sMax, sMin]);
    expect([nut.cornersMin, nut.heightMax, nut.heightMin]).toEqual([eMin, mMax, mMin]);
    // ISO 4759-1: the least width across corners is 1.13 of the least flats.
    expect(nut.cornersMin).toBeCloseTo(1.13 * sMin, 1);
  });

  test.each([
    ["M3", 6.35],
    ["M4", 8.08],
    ["M5", 9.24],
    ["M6", 11.55],
    ["M8", 15.01],
  ])("%s: the sharp hexagon is %d across corners", (name, corners) => {
    expect(hexNut(name).cornersMax).toBeCloseTo(corners, 2);
  });
});

describe("ISO 4035 and ISO 7040, heights of thin and lock nuts", () => {
  // ISO 4035 table 1: s, m max.
  test.each([
    ["M2", 4, 1.2],
    ["M2.5", 5, 1.6],
    ["M3", 5.5, 1.8],
    ["M4", 7, 2.2],
    ["M5", 8, 2.7],
    ["M6", 10, 3.2],
    ["M8", 13, 4],
    ["M10", 16, 5],
    ["M12", 18, 6],
  ])("thin %s: s %d, m max %d", (name, flats, height) => {
    expect(thinNut(name)).toMatchObject({ acrossFlats: flats, heightMax: height });
  });

  // ISO 7040: s, h max, from memory.
  test.each([
    ["M3", 5.5, 4.5],
    ["M4", 7, 6],
    ["M5", 8, 6.8],
    ["M6", 10, 8],
    ["M8", 13, 9.5],
    ["M10", 16, 11.9],
    ["M12", 18, 14.9],
  ])("lock %s: s %d, h max %d", (name, flats, height) => {
    expect(lockNut(name)).toMatchObject({ acrossFlats: flats, heightMax: height });
  });
});

describe("ISO 7089:2000 table 1, plain washers: d1 min, d2 max, h, h max", () => {
  test.each([
    ["M2", 2.2, 5, 0.3, 0.35],
    ["M2.5", 2.7, 6, 0.5, 0.55],
    ["M3", 3.2, 7, 0.5, 0.55],
    ["M4", 4.3, 9, 0.8, 0.9],
    ["M5", 5.3, 10, 1, 1.1],
    ["M6", 6.4, 12, 1.6, 1.8],
    ["M8", 8.4, 16, 1.6, 1.8],
    ["M10", 10.5, 20, 2, 2.2],
    ["M12", 13, 24, 2.5, 2.7],
  ])("%s", (name, bore, outside, thickness, thicknessMax) => {
    expect(plainWasher(name)).toEqual({ bore, outside, thickness, thicknessMax });
    expect(bore).toBe(clearanceHole(name, "fine"));
  });
});

describe("ISO 7093-1 table 1, large washers: d1 min, d2 max; h from memory, h max", () => {
  test.each([
    ["M3", 3.2, 9, 0.8, 0.9],
    ["M4", 4.3, 12, 1, 1.1],
    ["M5", 5.3, 15, 1, 1.4],
    ["M6", 6.4, 18, 1.6, 1.8],
    ["M8", 8.4, 24, 2, 2.2],
    ["M10", 10.5, 30, 2.5, 2.7],
    ["M12", 13, 37, 3, 3.3],
  ])("%s", (name, bore, outside, thickness, thicknessMax) => {
    expect(largeWasher(name)).toEqual({ bore, outside, thickness, thicknessMax });
  });
});

describe("ISO metric coarse threads", () => {
  // Basic profile as printed (ISO 724 by way of a national copy): P in mm, d2, D1, d3 in micrometres; ISO 898-1
  // table: At in mm2.
  test.each([
    ["M2", 0.4, 1740, 1567, 1509, 2.07],
    ["M2.5", 0.45, 2208, 2013, 1948, 3.39],
    ["M3", 0.5, 2675, 2459, 2387, 5.03],
    ["M4", 0.7, 3545, 3242, 3141, 8.78],
    ["M5", 0.8, 4480, 4134, 4019, 14.2],
    ["M6", 1, 5350, 4917, 4773, 20.1],
    ["M8", 1.25, 7188, 6647, 6466, 36.6],
    ["M10", 1.5, 9026, 8376, 8160, 58],
    ["M12", 1.75, 10863, 10106, 9853, 84.3],
  ])("%s: P, d2, D1, d3, At", (name, pitch, d2, d1, d3, area) => {
    const found = thread(name);
    expect(found.pitch).toBe(pitch);
    expect(Math.abs(found.pitchDiameter * 1000 - d2)).toBeLessThan(1);
    expect(Math.abs(found.nutMinorDiameter * 1000 - d1)).toBeLessThan(1);
    expect(Math.abs(found.rootDiameter * 1000 - d3)).toBeLessThan(1);
    expect(Math.abs(found.stressArea / area - 1)).toBeLessThan(0.004);
  });

  // ISO 2306, drills for tapping.
  test.each([
    ["M3", 2.5],
    ["M4", 3.3],
    ["M5", 4.2],
    ["M6", 5],
    ["M8", 6.8],
    ["M10", 8.5],
    ["M12", 10.2],
  ])("%s: tap drill %d", (name, drill) => {
    expect(thread(name).tapDrill).toBe(drill);
  });

  // ISO 965-1: es = -(15 + 11 P) micrometres; Td = 180 P^(2/3) - 3.15 P^(-1/2), rounded to preferred numbers (R 40).
  test.each(["M2", "M2.5", "M3", "M4", "M5", "M6", "M8", "M10", "M12"])(
    "%s: 6g limits follow the formulas of ISO 965-1",
    (name) => {
      const { major, majorMax, majorMin, pitch } = thread(name);
      expect(Math.abs(major - majorMax - (15 + 11 * pitch) / 1000)).toBeLessThan(0.001);
      const tolerance = (180 * pitch ** (2 / 3) - 3.15 / Math.sqrt(pitch)) / 1000;
      expect(Math.abs((majorMax - majorMin) / tolerance - 1)).toBeLessThan(0.03);
    },
  );

  test("rods: cut studs of DIN 976-1 run from 25 in steps of 5, bars are a metre and more", () => {
    expect(rodStock("M6").cutLengths.slice(0, 6)).toEqual([25, 30, 35, 40, 45, 50]);
    expect(rodStock("M6").barLengths).toEqual([1000, 2000, 3000]);
  });
});
