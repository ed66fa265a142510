import { describe, expect, test } from "vitest";
import { rodSolid, solidMass, standardPiece } from "../../packages/geometry/src/hardware/mass.js";

/** Dealers' tables of steel fasteners, g a piece, from memory; chamfers make real nuts a little lighter. */
describe("masses of standard pieces", () => {
  test.each([
    ["nut", "nut ISO 4032 M6", 2.5],
    ["nut", "nut ISO 4032 M8", 5.2],
    ["washer", "washer ISO 7089 M6", 1.02],
    ["washer", "washer ISO 7089 M8", 1.83],
  ] as const)("%s %s: %d g", (kind, item, mass) => {
    const piece = standardPiece({ item, kind });
    expect(piece && solidMass(piece) / mass).toBeGreaterThan(0.95);
    expect(piece && solidMass(piece) / mass).toBeLessThan(1.1);
  });

  test("a metre of threaded rod M6: 177 g", () => {
    expect(solidMass(rodSolid("M6", 1000)) / 177).toBeCloseTo(1, 1);
  });

  test.each([
    ["tie", "tie zip"],
    ["screw", "screw wood M4"],
    ["nut", "nut M7"],
    ["motor", "motor M8x30"],
  ] as const)("none for a %s called %s, which no table knows", (kind, item) => {
    expect(standardPiece({ item, kind })).toBeUndefined();
  });
});
