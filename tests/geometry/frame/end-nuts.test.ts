import { checkFrame, deriveFrame, endNut, type Frame } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { toolAccess } from "../../../packages/geometry/src/checks/tolerance-stack/tool-access.js";
import { fitMachine } from "../../../packages/geometry/src/fit/machine.js";
import { richParameters } from "./rich.js";

const plain = deriveFrame(richParameters());
const locked = deriveFrame({ ...richParameters(), nuts: "lock" });

/** Pieces of an item in one kit. */
function count(frame: Frame, item: RegExp): number {
  return frame.hardware.reduce((sum, piece) => sum + (item.test(piece.item) ? piece.count : 0), 0);
}

describe("lock nuts", () => {
  // ISO 7040, h max and min, from memory.
  it.each([
    ["M3", 4.5, 4.02],
    ["M5", 6.8, 6.22],
    ["M6", 8, 7.42],
    ["M10", 11.9, 11.2],
  ])("of %s are %d to %d high", (thread, high, low) => {
    const nut = endNut(thread, "lock");
    expect(nut.heightMax).toBe(high);
    expect(nut.heightMin).toBeCloseTo(low, 9);
  });

  it("take the place of the nuts at the ends, and only of those", () => {
    expect(count(plain, /7040/)).toBe(0);
    const ends = 2 * locked.lengths.filter(({ kind }) => kind === "rod").reduce((n, rod) => n + rod.count, 0);
    expect(count(locked, /^nut ISO 7040 M6$/)).toBe(ends);
    expect(count(locked, /^nut ISO 4032 M6$/)).toBe(count(plain, /^nut ISO 4032 M6$/) - ends);
    expect(count(locked, /^nut/)).toBe(count(plain, /^nut/));
    const screws = count(plain, /^nut ISO 4032 M[^6]/);
    expect(screws).toBeGreaterThan(0);
    expect(count(locked, /^nut ISO 7040 M[^6]/)).toBe(screws);
  });

  it("make rods longer by what they are higher, 2.8 mm at each end of M6, to the next millimetre", () => {
    const lengths = (frame: Frame): number[] =>
      frame.lengths.flatMap(({ kind, length }) => (kind === "rod" ? [length] : []));
    const longer = lengths(locked).map((length, index) => length - (lengths(plain)[index] ?? 0));
    expect(longer.length).toBeGreaterThan(1);
    for (const by of longer) expect([5, 6]).toContain(by);
  });

  it("are what a spanner grips at the pipe of a sway duct, and nowhere else", () => {
    const machine = fitMachine({ ...richParameters(), nuts: "lock" }, []);
    const grips = toolAccess(machine, locked.plates)
      .filter(({ contributions = [] }) => contributions.some(({ name }) => name === "nut"))
      .map(({ place, contributions = [] }) => [
        place,
        contributions.find(({ name }) => name === "nut")?.source,
      ]);
    expect(grips.map(([place]) => place)).toContain("sway.rods");
    expect(grips.length).toBeGreaterThan(1);
    for (const [place = "", source] of grips) {
      expect(source).toBe(place.includes("sway") ? "ISO 7040" : "ISO 4032");
    }
  });

  it("leave one thread of every screw and rod beyond them", () => {
    const beyond = checkFrame(locked).filter(({ id }) => /beyond-nut/.test(id));
    expect(beyond).not.toEqual([]);
    for (const finding of beyond) {
      expect(finding.severity).toBe("note");
      expect(finding.source).toContain("ISO 7040");
    }
  });
});
