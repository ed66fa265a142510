import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { editDistance, nearestName } from "../../packages/cli/src/input/nearest-name.js";

describe("editDistance", () => {
  // Worked by hand; "ca" to "abc" is 3 in the restricted form, which never edits a swapped pair again.
  it.each([
    ["", "", 0],
    ["kitten", "sitting", 3],
    ["lenght", "length", 1],
    ["ca", "abc", 3],
    ["PE-HD", "pe-hd", 0],
    ["abc", "", 3],
  ])("of %s and %s is %i", (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
    expect(editDistance(b, a)).toBe(distance);
  });

  it("is bounded by the longer name and at least the difference in length", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        const distance = editDistance(a, b);
        expect(distance).toBeGreaterThanOrEqual(Math.abs(a.toLowerCase().length - b.toLowerCase().length));
        expect(distance).toBeLessThanOrEqual(Math.max(a.toLowerCase().length, b.toLowerCase().length));
      }),
      { seed: 11, numRuns: 300 },
    );
  });
});

describe("nearestName", () => {
  const known = ["length", "width", "clearance", "edgeMargin", "kerf"];
  it.each([
    ["lenght", "length"],
    ["Width", "width"],
    ["clear", "clearance"],
    ["edge", "edgeMargin"],
    ["kref", "kerf"],
    ["banana", undefined],
    ["x", undefined],
    ["x".repeat(500), undefined],
  ])("%s means %s", (written, meant) => {
    expect(nearestName(written, known)).toBe(meant);
  });
});
