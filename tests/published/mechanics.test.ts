import { describe, expect, test } from "vitest";
import {
  cantilever,
  rectangular,
  simpleCentre,
  simpleSeveral,
} from "../../packages/geometry/src/checks/strength/formulas/beam.js";
import {
  bearing,
  boltShear,
  edgeShear,
  netTension,
  tighteningTorque,
} from "../../packages/geometry/src/checks/strength/formulas/bolted-joint.js";
import {
  centrallyLoaded,
  uniformlyLoaded,
} from "../../packages/geometry/src/checks/strength/formulas/roark-plate.js";

describe("Roark's Formulas for Stress and Strain, 7th edition, table 11.4", () => {
  // Case 1a, simply supported, uniform load: y = alpha q b^4 / (E t^3), s = beta q b^2 / t^2.
  test.each([
    [1, 0.2874, 0.0444],
    [1.2, 0.3762, 0.0616],
    [1.4, 0.453, 0.077],
    [1.6, 0.5172, 0.0906],
    [1.8, 0.5688, 0.1017],
    [2, 0.6102, 0.111],
    [3, 0.7134, 0.1335],
    [4, 0.741, 0.14],
    [5, 0.7476, 0.1417],
    [Number.POSITIVE_INFINITY, 0.75, 0.1421],
  ])("case 1a, a/b = %d", (ratio, beta, alpha) => {
    const { stress, deflection } = uniformlyLoaded({ a: 100 * ratio, b: 100, t: 10, E: 1 }, 1);
    expect(stress).toBeCloseTo((beta * 100 ** 2) / 10 ** 2, 9);
    expect(deflection).toBeCloseTo((alpha * 100 ** 4) / 10 ** 3, 6);
  });

  // Case 1b, simply supported, load on a small circle in the middle.
  test.each([
    [1, 0.435, 0.1267],
    [1.2, 0.65, 0.1478],
    [1.4, 0.789, 0.1621],
    [1.6, 0.875, 0.1715],
    [1.8, 0.927, 0.177],
    [2, 0.958, 0.1805],
    [Number.POSITIVE_INFINITY, 1, 0.1851],
  ])("case 1b, a/b = %d", (ratio, beta, alpha) => {
    const { stress, deflection } = centrallyLoaded({ a: 100 * ratio, b: 100, t: 4, E: 1 }, 1, 8);
    const s = (3 / (2 * Math.PI * 16)) * (1.3 * Math.log(200 / (Math.PI * 8)) + beta);
    expect(stress).toBeCloseTo(s, 9);
    expect(deflection).toBeCloseTo((alpha * 100 ** 2) / 4 ** 3, 9);
  });

  // Worked by hand from the printed coefficients: 200 x 200 x 5 of E 3300 and 300 x 150 x 8 of E 1000 MPa under 1 kPa.
  test("two plates under a kilopascal", () => {
    const acrylic = uniformlyLoaded({ a: 200, b: 200, t: 5, E: 3300 }, 0.001);
    expect(acrylic.deflection).toBeCloseTo(0.17222, 5);
    expect(acrylic.stress).toBeCloseTo(0.45984, 5);
    const polyethylene = uniformlyLoaded({ a: 300, b: 150, t: 8, E: 1000 }, 0.001);
    expect(polyethylene.deflection).toBeCloseTo(0.10975, 5);
    expect(polyethylene.stress).toBeCloseTo(0.21452, 5);
  });

  // An endless strip is a beam of unit width: s = 6 (q b^2 / 8) / t^2 = 0.75 q b^2 / t^2 and
  // y = 5 q b^4 / (384 E' I) with E' = E / (1 - nu^2): 5 x 12 x 0.91 / 384 = 0.1421875.
  test("the strip without end is the beam that it must be", () => {
    const strip = uniformlyLoaded({ a: Number.POSITIVE_INFINITY, b: 50, t: 3, E: 700 }, 0.01);
    expect(strip.stress).toBeCloseTo((6 * 0.01 * 50 ** 2) / 8 / 9, 9);
    expect(strip.deflection).toBeCloseTo((0.1421875 * 0.01 * 50 ** 4) / (700 * 27), 3);
  });

  test("holds for small deflections and thin plates only", () => {
    expect(uniformlyLoaded({ a: 200, b: 200, t: 5, E: 3300 }, 0.001).valid).toBe(true);
    expect(uniformlyLoaded({ a: 200, b: 200, t: 5, E: 3300 }, 0.1).valid).toBe(false);
    expect(uniformlyLoaded({ a: 200, b: 15, t: 5, E: 3300 }, 0.001).valid).toBe(false);
  });

  test("grows steadily between the columns and ends at the strip", () => {
    const at = (ratio: number): number => uniformlyLoaded({ a: 100 * ratio, b: 100, t: 10, E: 1 }, 1).stress;
    const ratios = Array.from({ length: 200 }, (_, index) => 1 + index * 0.1);
    for (const [index, ratio] of ratios.entries()) {
      expect(at(ratio)).toBeGreaterThanOrEqual(at(ratios[index - 1] ?? 1));
      expect(at(ratio)).toBeLessThanOrEqual(75);
    }
  });

  test.each([
    [{ a: 50, b: 100, t: 5, E: 1 }, 1],
    [{ a: 100, b: 100, t: 0, E: 1 }, 1],
    [{ a: 100, b: 100, t: 5, E: Number.NaN }, 1],
    [{ a: 100, b: 100, t: 5, E: 1 }, Number.NaN],
  ])("refuses %j under %d", (plate, load) => {
    expect(() => uniformlyLoaded(plate, load)).toThrow(RangeError);
    expect(() => centrallyLoaded(plate, load, 5)).toThrow(RangeError);
  });
});

describe("Shigley's Mechanical Engineering Design, 9th edition", () => {
  // Example of a bolted tension splice, pages 454 and 455: plate 4 x 1 in, four bolts of 3/4 in, design factor 1.5, two bolts
  // take each side's load, edge distance 1.125 in, root area 0.351 in2; strengths in kpsi, loads in kip as printed.
  const [d, t, factor] = [0.75, 1, 1.5];
  const load = (strength: number, stressOfOne: number): number => strength / (factor * stressOfOne);

  test("bearing on the bolts and on the members", () => {
    expect(load(85, bearing(1, 2 * d, t))).toBeCloseTo(85, 1);
    expect(load(54, bearing(1, 2 * d, t))).toBeCloseTo(54, 1);
  });

  test("shear of the bolts, shank and thread", () => {
    expect(load(0.577 * 85, boltShear(1, 4, (Math.PI / 4) * d ** 2))).toBeCloseTo(57.8, 1);
    expect(load(0.577 * 85, boltShear(1, 4, 0.351))).toBeCloseTo(45.9, 1);
  });

  test("edge shearing of the members", () => {
    expect(load(0.577 * 54, edgeShear(1, 2 * 1.125, t))).toBeCloseTo(93.5, 1);
  });

  test("net tension and yield of the members", () => {
    expect(load(54, netTension(1, 4, 2, d, t))).toBeCloseTo(90, 1);
    expect(load(54, netTension(1, 4, 0, d, t))).toBeCloseTo(144, 1);
  });

  // A textbook's joint: 800 lb on two bolts of 1/2 in through 3/8 in.
  test("bearing of two bolts", () => {
    expect(bearing(800, 2 * 0.5, 0.375)).toBeCloseTo(2133, 0);
  });

  // T = K F d with K = 0.2: 500 N on M5 want half a newton metre.
  test("torque for a preload", () => {
    expect(tighteningTorque(500, 5)).toBeCloseTo(0.5, 12);
  });
});

describe("beams", () => {
  // A public cantilever example: F 3000 N, L 5000 mm, I 8.196e7 mm4, E 200 GPa, 150 mm to the outer fibre.
  test("a steel cantilever", () => {
    const I = 81960000;
    const { deflection, stress } = cantilever({ I, Z: I / 150, E: 200000 }, 3000, 5000);
    expect(deflection).toBeCloseTo(7.6, 1);
    expect(stress).toBeCloseTo(27.4, 0);
    expect(deflection).toBeCloseTo(7.6257, 4);
    expect(stress).toBeCloseTo(27.452, 3);
  });

  // s = 6 F L / (b t^2) and d = F L^3 / (3 E I): PP, E 1300, 50 x 10 mm, 80 mm free, 20 N.
  test("a plastic cantilever", () => {
    const { deflection, stress } = cantilever(rectangular(50, 10, 1300), 20, 80);
    expect(deflection).toBeCloseTo(0.63015, 5);
    expect(stress).toBeCloseTo(1.92, 9);
  });

  // Shigley table A-9, case 5: d = F L^3 / (48 E I), M = F L / 4.
  test("a beam on two supports, one force superposed on nothing", () => {
    const section = rectangular(30, 8, 2800);
    const one = simpleCentre(section, 40, 300);
    const several = simpleSeveral(section, [{ F: 40, at: 150 }], 300);
    expect(one.stress).toBeCloseTo((40 * 300) / 4 / ((30 * 64) / 6), 9);
    expect(several.stress).toBeCloseTo(one.stress, 9);
    expect(several.deflection).toBeCloseTo(one.deflection, 9);
    expect(several.reactions).toEqual([20, 20]);
  });

  // Shigley table A-9, case 9 (twin loads): M = F a, d = F a (4 a^2 - 3 L^2) / (24 E I) at the middle.
  test("two forces alike from both ends", () => {
    const section = rectangular(10, 10, 1000);
    const [F, a, L] = [15, 70, 320];
    const bent = simpleSeveral(
      section,
      [
        { F, at: a },
        { F, at: L - a },
      ],
      L,
    );
    expect(bent.stress).toBeCloseTo((F * a) / section.Z, 9);
    expect(bent.deflection).toBeCloseTo((F * a * (3 * L ** 2 - 4 * a ** 2)) / (24 * 1000 * section.I), 9);
    expect(bent.reactions[0]).toBeCloseTo(15, 9);
    expect(bent.reactions[1]).toBeCloseTo(15, 9);
  });
});
